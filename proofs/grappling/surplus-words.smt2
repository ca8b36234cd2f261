; Contest rules of the Lowland Grappling Union, edition 2031
; Some part of a clause's condition could go, and no ruling would change.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.
; matter: 0 technique, 1 conduct, 2 edge, 3 dress, 4 injury, 5 chair
(declare-const |matter| Int)
(assert (<= 0 |matter| 5))
; category: 0 youth, 1 senior, 2 veteran
(declare-const |category| Int)
(assert (<= 0 |category| 2))
; cautions_before: 0 + 1 * the number
(declare-const |cautions_before| Int)
(assert (<= 0 |cautions_before| 2))
; phase: 0 standing, 1 going_down, 2 ground, 3 rising
(declare-const |phase| Int)
(assert (<= 0 |phase| 3))
(declare-const |after_call| Bool)
; action: 0 grip, 1 throw, 2 lock, 3 strangle, 4 hold_down, 5 lift
(declare-const |action| Int)
(assert (<= 0 |action| 5))
(declare-const |hand_on_leg| Bool)
(declare-const |submission| Bool)
; video: 0 confirmed, 1 corrected
(declare-const |video| Int)
(assert (<= 0 |video| 1))
; left_hand: 0 left_side, 1 right_side, 2 belt, 3 inside_cuff
(declare-const |left_hand| Int)
(assert (<= 0 |left_hand| 3))
; right_hand: 0 left_side, 1 right_side, 2 belt, 3 inside_cuff
(declare-const |right_hand| Int)
(assert (<= 0 |right_hand| 3))
; seconds_gripped: 0 + 1 * the number, s
(declare-const |seconds_gripped| Int)
(assert (<= 0 |seconds_gripped| 8))
; seconds_without_attack: 0 + 5 * the number, s
(declare-const |seconds_without_attack| Int)
(assert (<= 0 |seconds_without_attack| 12))
; held_by: 0 collar_and_sleeve, 1 one_sleeve, 2 both_sleeves
(declare-const |held_by| Int)
(assert (<= 0 |held_by| 2))
; landing: 0 front, 1 side, 2 back_part, 3 full_back
(declare-const |landing| Int)
(assert (<= 0 |landing| 3))
; control: 0 little, 1 fair, 2 full
(declare-const |control| Int)
(assert (<= 0 |control| 2))
; joint: 0 elbow, 1 shoulder, 2 wrist, 3 knee
(declare-const |joint| Int)
(assert (<= 0 |joint| 3))
; pressure: 0 to_elbow, 1 to_shoulder
(declare-const |pressure| Int)
(assert (<= 0 |pressure| 1))
(declare-const |weight_dropped| Bool)
; way_under: 0 dropped_on, 1 turned_into
(declare-const |way_under| Int)
(assert (<= 0 |way_under| 1))
; entry: 0 plain, 1 flying
(declare-const |entry| Int)
(assert (<= 0 |entry| 1))
; strangle_with: 0 cloth, 1 forearm, 2 belt, 3 fingers, 4 legs
(declare-const |strangle_with| Int)
(assert (<= 0 |strangle_with| 4))
; leg_state: 0 bent, 1 drawn_straight, 2 stretched_at_will
(declare-const |leg_state| Int)
(assert (<= 0 |leg_state| 2))
; leg_held: 0 left_alone, 1 weight_above, 2 pulled
(declare-const |leg_held| Int)
(assert (<= 0 |leg_held| 2))
; seconds_held: 0 + 1 * the number, s
(declare-const |seconds_held| Int)
(assert (<= 0 |seconds_held| 20))
; lift_end: 0 set_down, 1 dropped, 2 driven
(declare-const |lift_end| Int)
(assert (<= 0 |lift_end| 2))
; conduct: 0 eye, 1 strike, 2 finger_bend, 3 face, 4 feint, 5 insult
(declare-const |conduct| Int)
(assert (<= 0 |conduct| 5))
(declare-const |deliberate| Bool)
; force: 0 light, 1 firm, 2 full
(declare-const |force| Int)
(assert (<= 0 |force| 2))
; left_by: 0 own_step, 1 push, 2 technique
(declare-const |left_by| Int)
(assert (<= 0 |left_by| 2))
(declare-const |still_inside includes attacker| Bool)
(declare-const |still_inside includes defender| Bool)
; dress_seen: 0 control, 1 bout
(declare-const |dress_seen| Int)
(assert (<= 0 |dress_seen| 1))
(declare-const |dress_faults includes belt| Bool)
(declare-const |dress_faults includes jacket| Bool)
(declare-const |dress_faults includes metal| Bool)
(declare-const |dress_faults includes nails| Bool)
(declare-const |dress_faults includes padding| Bool)
; sleeve_gap: 0 + 0.5 * the number, cm
(declare-const |sleeve_gap| Int)
(assert (<= 0 |sleeve_gap| 40))
; injury: 0 bleeding, 1 unconscious, 2 other
(declare-const |injury| Int)
(assert (<= 0 |injury| 2))
; times_treated: 0 + 1 * the number
(declare-const |times_treated| Int)
(assert (<= 0 |times_treated| 3))
; caused_by: 0 barred_act, 1 anything_else
(declare-const |caused_by| Int)
(assert (<= 0 |caused_by| 1))
; physician: 0 fit, 1 unfit
(declare-const |physician| Int)
(assert (<= 0 |physician| 1))
; coach_act: 0 advice_in_halt, 1 advice_in_play, 2 gesture, 3 abuse, 4 enters_mat
(declare-const |coach_act| Int)
(assert (<= 0 |coach_act| 4))
(declare-const |coach_warned| Bool)
(declare-const |attack_at_once is read broadly| Bool)
(declare-const |hard_contact is read broadly| Bool)

; What the names stand for, each after what it rests on.
(define-fun |coach_act is asked| () Bool
  (= |matter| 5))
(define-fun |15.5 is met| () Bool
  (and (= |matter| 5) (and |coach_act is asked| (or (= |coach_act| 3) (= |coach_act| 4)))))
(define-fun |15.5 is in force| () Bool
  |15.5 is met|)
(define-fun |injury is asked| () Bool
  (= |matter| 4))
(define-fun |14.2 is met| () Bool
  (and (= |matter| 4) (and |injury is asked| (= |injury| 1))))
(define-fun |14.2 is in force| () Bool
  |14.2 is met|)
(define-fun |14.1 is met| () Bool
  (= |matter| 4))
(define-fun |14.1 is in force| () Bool
  |14.1 is met|)
(define-fun |dress_seen is asked| () Bool
  (= |matter| 3))
(define-fun |cautions_before is asked| () Bool
  (or
    (or (= |matter| 0) (= |matter| 1) (= |matter| 2))
    (and |dress_seen is asked| (= |dress_seen| 1))))
(define-fun |action is asked| () Bool
  (= |matter| 0))
(define-fun |lift_end is asked| () Bool
  (and |action is asked| (= |action| 5)))
(define-fun |17.3 is met| () Bool
  (and (= |category| 2) (and |lift_end is asked| (= |lift_end| 1))))
(define-fun |17.3 is in force| () Bool
  |17.3 is met|)
(define-fun |17.3 stands on deserved| () Bool
  |17.3 is in force|)
(define-fun |entry is asked| () Bool
  (and |action is asked| (= |action| 2)))
(define-fun |17.2 is met| () Bool
  (and (= |category| 2) (and |entry is asked| (= |entry| 1))))
(define-fun |17.2 is in force| () Bool
  |17.2 is met|)
(define-fun |17.2 stands on deserved| () Bool
  |17.2 is in force|)
(define-fun |conduct is asked| () Bool
  (= |matter| 1))
(define-fun |after_call is asked| () Bool
  (or (= |matter| 0) (= |matter| 1)))
(define-fun |8.7 is met| () Bool
  (and
    (= |matter| 1)
    (and |conduct is asked| (= |conduct| 1))
    (and |after_call is asked| |after_call|)))
(define-fun |8.7 is in force| () Bool
  |8.7 is met|)
(define-fun |8.7 stands on deserved| () Bool
  |8.7 is in force|)
(define-fun |deliberate is asked| () Bool
  (and |conduct is asked| (or (= |conduct| 1) (= |conduct| 4))))
(define-fun |8.4 is met| () Bool
  (and
    (= |matter| 1)
    (and |conduct is asked| (= |conduct| 1))
    (and |deliberate is asked| |deliberate|)))
(define-fun |8.4 is in force| () Bool
  |8.4 is met|)
(define-fun |8.4 stands on deserved| () Bool
  |8.4 is in force|)
(define-fun |force is asked| () Bool
  (and |conduct is asked| (or (= |conduct| 0) (= |conduct| 1))))
(define-fun |8.3 is met| () Bool
  (and (= |matter| 1) (and |conduct is asked| (= |conduct| 0)) (and |force is asked| (= |force| 2))))
(define-fun |8.3 is in force| () Bool
  |8.3 is met|)
(define-fun |8.3 stands on deserved| () Bool
  |8.3 is in force|)
(define-fun |7.3 is met| () Bool
  (and (and |action is asked| (= |action| 5)) (and |lift_end is asked| (= |lift_end| 2))))
(define-fun |7.3 is in force| () Bool
  |7.3 is met|)
(define-fun |7.3 stands on deserved| () Bool
  |7.3 is in force|)
(define-fun |joint is asked| () Bool
  (and |action is asked| (= |action| 2)))
(define-fun |weight_dropped is asked| () Bool
  (and |joint is asked| (= |joint| 0)))
(define-fun |way_under is asked| () Bool
  (and |weight_dropped is asked| |weight_dropped|))
(define-fun |4.3 is met| () Bool
  (and (and |action is asked| (= |action| 2)) (and |way_under is asked| (= |way_under| 1))))
(define-fun |4.3 is in force| () Bool
  |4.3 is met|)
(define-fun |phase is asked| () Bool
  (or (= |matter| 0) (= |matter| 2)))
(define-fun |from_standing is true| () Bool
  (and |phase is asked| (or (= |phase| 0) (= |phase| 1))))
(define-fun |4.2 is met| () Bool
  (and
    (and |action is asked| (= |action| 2))
    |from_standing is true|
    (and |weight_dropped is asked| |weight_dropped|)))
(define-fun |4.2 is in force| () Bool
  |4.2 is met|)
(define-fun |4.2 stands on deserved| () Bool
  (and |4.2 is in force| (not |4.3 is in force|)))
(define-fun |leg_held is asked| () Bool
  (and |action is asked| (= |action| 3)))
(define-fun |leg_state is asked| () Bool
  (and |action is asked| (= |action| 3)))
(define-fun |5.5 is met| () Bool
  (and
    (and |action is asked| (= |action| 3))
    (and |leg_state is asked| (= |leg_state| 1))
    (and |leg_held is asked| (= |leg_held| 1))))
(define-fun |5.5 is in force| () Bool
  |5.5 is met|)
(define-fun |5.4 is met| () Bool
  (and
    (and |action is asked| (= |action| 3))
    (and |leg_state is asked| (= |leg_state| 1))
    (and |leg_held is asked| (= |leg_held| 2))))
(define-fun |5.4 is in force| () Bool
  |5.4 is met|)
(define-fun |pressure is asked| () Bool
  (and |joint is asked| (= |joint| 0)))
(define-fun |held_by is asked| () Bool
  (and |action is asked| (= |action| 1)))
(define-fun |joint_attack is true| () Bool
  (or
    (and |joint is asked| (or (= |joint| 1) (= |joint| 2) (= |joint| 3)))
    (and |pressure is asked| (= |pressure| 1))
    (and |held_by is asked| (= |held_by| 1))
    (and
      (and |leg_state is asked| (= |leg_state| 1))
      (and |leg_held is asked| (or (= |leg_held| 1) (= |leg_held| 2))))))
(define-fun |1.1 is met| () Bool
  |joint_attack is true|)
(define-fun |1.1 is in force| () Bool
  |1.1 is met|)
(define-fun |1.1 stands on deserved| () Bool
  (and |1.1 is in force| (not |5.4 is in force|) (not |5.5 is in force|)))
(define-fun |deserved may be disqualification| () Bool
  (or
    |1.1 stands on deserved|
    |4.2 stands on deserved|
    |7.3 stands on deserved|
    |8.3 stands on deserved|
    |8.4 stands on deserved|
    |8.7 stands on deserved|
    |17.2 stands on deserved|
    |17.3 stands on deserved|))
(define-fun |17.1 is met| () Bool
  (and (= |category| 0) (and |action is asked| (or (= |action| 2) (= |action| 3)))))
(define-fun |17.1 is in force| () Bool
  |17.1 is met|)
(define-fun |17.1 stands on deserved| () Bool
  |17.1 is in force|)
(define-fun |8.12 is met| () Bool
  (and (= |matter| 1) (and |conduct is asked| (= |conduct| 5))))
(define-fun |8.12 is in force| () Bool
  |8.12 is met|)
(define-fun |8.12 stands on deserved| () Bool
  |8.12 is in force|)
(define-fun |8.8 is met| () Bool
  (and (= |matter| 1) (and |conduct is asked| (= |conduct| 2))))
(define-fun |8.8 is in force| () Bool
  |8.8 is met|)
(define-fun |8.8 stands on deserved| () Bool
  |8.8 is in force|)
(define-fun |7.2 is met| () Bool
  (and (and |action is asked| (= |action| 5)) (and |lift_end is asked| (= |lift_end| 1))))
(define-fun |7.2 is in force| () Bool
  |7.2 is met|)
(define-fun |7.2 stands on deserved| () Bool
  |7.2 is in force|)
(define-fun |strangle_with is asked| () Bool
  (and |action is asked| (= |action| 3)))
(define-fun |5.3 is met| () Bool
  (and (and |action is asked| (= |action| 3)) (and |strangle_with is asked| (= |strangle_with| 4))))
(define-fun |5.3 is in force| () Bool
  |5.3 is met|)
(define-fun |5.3 stands on deserved| () Bool
  |5.3 is in force|)
(define-fun |4.4 is met| () Bool
  (and
    (and |action is asked| (= |action| 2))
    (and |entry is asked| (= |entry| 1))
    (not (and |phase is asked| (or (= |phase| 2) (= |phase| 3))))))
(define-fun |4.4 is in force| () Bool
  |4.4 is met|)
(define-fun |4.4 stands on deserved| () Bool
  |4.4 is in force|)
(define-fun |deserved may be major| () Bool
  (and
    (or
      |4.4 stands on deserved|
      |5.3 stands on deserved|
      |7.2 stands on deserved|
      |8.8 stands on deserved|
      |8.12 stands on deserved|
      |17.1 stands on deserved|)
    (not
      (or
        |1.1 stands on deserved|
        |4.2 stands on deserved|
        |7.3 stands on deserved|
        |8.3 stands on deserved|
        |8.4 stands on deserved|
        |8.7 stands on deserved|
        |17.2 stands on deserved|
        |17.3 stands on deserved|))))
(define-fun |dress_faults is asked| () Bool
  (= |matter| 3))
(define-fun |13.5 is met| () Bool
  (and
    (= |matter| 3)
    (and |dress_seen is asked| (= |dress_seen| 1))
    (and
      |dress_faults is asked|
      (or
        |dress_faults includes metal|
        |dress_faults includes nails|
        |dress_faults includes padding|))))
(define-fun |13.5 is in force| () Bool
  |13.5 is met|)
(define-fun |13.5 stands on deserved| () Bool
  |13.5 is in force|)
(define-fun |left_by is asked| () Bool
  (= |matter| 2))
(define-fun |12.2 is met| () Bool
  (and (= |matter| 2) (and |phase is asked| (= |phase| 0)) (and |left_by is asked| (= |left_by| 1))))
(define-fun |12.2 is in force| () Bool
  |12.2 is met|)
(define-fun |12.2 stands on deserved| () Bool
  |12.2 is in force|)
(define-fun |12.1 is met| () Bool
  (and (= |matter| 2) (and |phase is asked| (= |phase| 0)) (and |left_by is asked| (= |left_by| 0))))
(define-fun |12.1 is in force| () Bool
  |12.1 is met|)
(define-fun |12.1 stands on deserved| () Bool
  |12.1 is in force|)
(define-fun |8.10 is met| () Bool
  (and
    (= |matter| 1)
    (and |conduct is asked| (= |conduct| 4))
    (and |deliberate is asked| |deliberate|)))
(define-fun |8.10 is in force| () Bool
  |8.10 is met|)
(define-fun |8.10 stands on deserved| () Bool
  |8.10 is in force|)
(define-fun |8.9 is met| () Bool
  (and (= |matter| 1) (and |conduct is asked| (= |conduct| 3))))
(define-fun |8.9 is in force| () Bool
  |8.9 is met|)
(define-fun |8.9 stands on deserved| () Bool
  |8.9 is in force|)
(define-fun |hard_contact is open to reading| () Bool
  (and
    (and |force is asked| (or (= |force| 1) (= |force| 2)))
    (not (and |force is asked| (= |force| 2)))))
(define-fun |hard_contact is true| () Bool
  (or
    (and |force is asked| (= |force| 2))
    (and
      (and |force is asked| (or (= |force| 1) (= |force| 2)))
      (and |hard_contact is open to reading| |hard_contact is read broadly|))))
(define-fun |8.5 is met| () Bool
  (and
    (= |matter| 1)
    (and |conduct is asked| (= |conduct| 1))
    (and |deliberate is asked| (not |deliberate|))
    |hard_contact is true|))
(define-fun |8.5 is in force| () Bool
  |8.5 is met|)
(define-fun |8.5 stands on deserved| () Bool
  |8.5 is in force|)
(define-fun |8.2 is met| () Bool
  (and (= |matter| 1) (and |conduct is asked| (= |conduct| 0)) (and |force is asked| (= |force| 1))))
(define-fun |8.2 is in force| () Bool
  |8.2 is met|)
(define-fun |8.2 stands on deserved| () Bool
  |8.2 is in force|)
(define-fun |hand_on_leg is asked| () Bool
  (= |matter| 0))
(define-fun |6.2 is met| () Bool
  (and
    (and |hand_on_leg is asked| |hand_on_leg|)
    (and |phase is asked| (= |phase| 1))
    (and |action is asked| (or (= |action| 0) (= |action| 1)))))
(define-fun |6.2 is in force| () Bool
  |6.2 is met|)
(define-fun |6.2 stands on deserved| () Bool
  |6.2 is in force|)
(define-fun |6.1 is met| () Bool
  (and (and |hand_on_leg is asked| |hand_on_leg|) (and |phase is asked| (= |phase| 0))))
(define-fun |6.1 is in force| () Bool
  |6.1 is met|)
(define-fun |6.1 stands on deserved| () Bool
  |6.1 is in force|)
(define-fun |5.4 stands on deserved| () Bool
  |5.4 is in force|)
(define-fun |5.2 is met| () Bool
  (and
    (and |action is asked| (= |action| 3))
    (and |strangle_with is asked| (or (= |strangle_with| 2) (= |strangle_with| 3)))))
(define-fun |5.2 is in force| () Bool
  |5.2 is met|)
(define-fun |5.2 stands on deserved| () Bool
  |5.2 is in force|)
(define-fun |seconds_without_attack is asked| () Bool
  (and (and |action is asked| (= |action| 0)) (and |phase is asked| (= |phase| 0))))
(define-fun |2.3 is met| () Bool
  (and
    (and |action is asked| (= |action| 0))
    (or
      (and
        (= |category| 0)
        (and |seconds_without_attack is asked| (<= 8 |seconds_without_attack| 12)))
      (and
        (= |category| 1)
        (and |seconds_without_attack is asked| (<= 6 |seconds_without_attack| 12)))
      (and
        (= |category| 2)
        (and |seconds_without_attack is asked| (<= 9 |seconds_without_attack| 12))))))
(define-fun |2.3 is in force| () Bool
  |2.3 is met|)
(define-fun |2.3 stands on deserved| () Bool
  |2.3 is in force|)
(define-fun |right_hand is asked| () Bool
  (and |action is asked| (= |action| 0)))
(define-fun |left_hand is asked| () Bool
  (and |action is asked| (= |action| 0)))
(define-fun |2.2 is met| () Bool
  (and
    (and |action is asked| (= |action| 0))
    (or (and |left_hand is asked| (= |left_hand| 3)) (and |right_hand is asked| (= |right_hand| 3)))))
(define-fun |2.2 is in force| () Bool
  |2.2 is met|)
(define-fun |2.2 stands on deserved| () Bool
  |2.2 is in force|)
(define-fun |unusual_grip is true| () Bool
  (or
    (and
      |left_hand is asked|
      |right_hand is asked|
      (or
        (and (= |left_hand| 0) (= |right_hand| 0))
        (and (= |left_hand| 1) (= |right_hand| 1))
        (and (= |left_hand| 2) (= |right_hand| 2))
        (and (= |left_hand| 3) (= |right_hand| 3))))
    (and |left_hand is asked| (= |left_hand| 2))
    (and |right_hand is asked| (= |right_hand| 2))))
(define-fun |seconds_gripped is asked| () Bool
  |unusual_grip is true|)
(define-fun |attack_at_once is open to reading| () Bool
  (and
    (and |seconds_gripped is asked| (<= 0 |seconds_gripped| 5))
    (not (and |seconds_gripped is asked| (<= 0 |seconds_gripped| 3)))))
(define-fun |attack_at_once is true| () Bool
  (or
    (and |seconds_gripped is asked| (<= 0 |seconds_gripped| 3))
    (and
      (and |seconds_gripped is asked| (<= 0 |seconds_gripped| 5))
      (and |attack_at_once is open to reading| |attack_at_once is read broadly|))))
(define-fun |2.1 is met| () Bool
  (and
    (and |action is asked| (= |action| 0))
    (and |phase is asked| (= |phase| 0))
    |unusual_grip is true|
    (not |attack_at_once is true|)))
(define-fun |2.1 is in force| () Bool
  |2.1 is met|)
(define-fun |2.1 stands on deserved| () Bool
  |2.1 is in force|)
(define-fun |deserved may be minor| () Bool
  (and
    (or
      |2.1 stands on deserved|
      |2.2 stands on deserved|
      |2.3 stands on deserved|
      |5.2 stands on deserved|
      |5.4 stands on deserved|
      |6.1 stands on deserved|
      |6.2 stands on deserved|
      |8.2 stands on deserved|
      |8.5 stands on deserved|
      |8.9 stands on deserved|
      |8.10 stands on deserved|
      |12.1 stands on deserved|
      |12.2 stands on deserved|
      |13.5 stands on deserved|)
    (not
      (or
        |1.1 stands on deserved|
        |4.2 stands on deserved|
        |4.4 stands on deserved|
        |5.3 stands on deserved|
        |7.2 stands on deserved|
        |7.3 stands on deserved|
        |8.3 stands on deserved|
        |8.4 stands on deserved|
        |8.7 stands on deserved|
        |8.8 stands on deserved|
        |8.12 stands on deserved|
        |17.1 stands on deserved|
        |17.2 stands on deserved|
        |17.3 stands on deserved|))))
(define-fun |silence on deserved is a gap| () Bool
  (or
    (and |action is asked| (or (= |action| 1) (= |action| 2) (= |action| 3) (= |action| 5)))
    (and |hand_on_leg is asked| |hand_on_leg|)
    (= |matter| 1)))
(define-fun |8.11 is met| () Bool
  (and
    (= |matter| 1)
    (and |conduct is asked| (= |conduct| 4))
    (and |deliberate is asked| (not |deliberate|))))
(define-fun |8.11 is in force| () Bool
  |8.11 is met|)
(define-fun |hard_contact is false| () Bool
  (and
    (not (and |force is asked| (= |force| 2)))
    (or
      (and |force is asked| (not (or (= |force| 1) (= |force| 2))))
      (and
        (and |force is asked| (or (= |force| 1) (= |force| 2)))
        (not (and |hard_contact is open to reading| |hard_contact is read broadly|))))))
(define-fun |8.6 is met| () Bool
  (and
    (= |matter| 1)
    (and |conduct is asked| (= |conduct| 1))
    (and |deliberate is asked| (not |deliberate|))
    |hard_contact is false|))
(define-fun |8.6 is in force| () Bool
  |8.6 is met|)
(define-fun |8.1 is met| () Bool
  (and (= |matter| 1) (and |conduct is asked| (= |conduct| 0)) (and |force is asked| (= |force| 0))))
(define-fun |8.1 is in force| () Bool
  |8.1 is met|)
(define-fun |7.1 is met| () Bool
  (and (and |action is asked| (= |action| 5)) (and |lift_end is asked| (= |lift_end| 0))))
(define-fun |7.1 is in force| () Bool
  |7.1 is met|)
(define-fun |6.3 is met| () Bool
  (and
    (and |hand_on_leg is asked| |hand_on_leg|)
    (and |phase is asked| (or (= |phase| 2) (= |phase| 3)))))
(define-fun |6.3 is in force| () Bool
  |6.3 is met|)
(define-fun |5.1 is met| () Bool
  (and
    (and |action is asked| (= |action| 3))
    (and |strangle_with is asked| (or (= |strangle_with| 0) (= |strangle_with| 1)))))
(define-fun |5.1 is in force| () Bool
  |5.1 is met|)
(define-fun |4.1 is met| () Bool
  (and (and |action is asked| (= |action| 2)) (and |pressure is asked| (= |pressure| 0))))
(define-fun |4.1 is in force| () Bool
  |4.1 is met|)
(define-fun |3.5 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    (and |held_by is asked| (or (= |held_by| 0) (= |held_by| 2)))))
(define-fun |3.5 is in force| () Bool
  |3.5 is met|)
(define-fun |a clause speaks on deserved| () Bool
  (or
    |1.1 is in force|
    |2.1 is in force|
    |2.2 is in force|
    |2.3 is in force|
    |3.5 is in force|
    |4.1 is in force|
    |4.2 is in force|
    |4.3 is in force|
    |4.4 is in force|
    |5.1 is in force|
    |5.2 is in force|
    |5.3 is in force|
    |5.4 is in force|
    |5.5 is in force|
    |6.1 is in force|
    |6.2 is in force|
    |6.3 is in force|
    |7.1 is in force|
    |7.2 is in force|
    |7.3 is in force|
    |8.1 is in force|
    |8.2 is in force|
    |8.3 is in force|
    |8.4 is in force|
    |8.5 is in force|
    |8.6 is in force|
    |8.7 is in force|
    |8.8 is in force|
    |8.9 is in force|
    |8.10 is in force|
    |8.11 is in force|
    |8.12 is in force|
    |12.1 is in force|
    |12.2 is in force|
    |13.5 is in force|
    |17.1 is in force|
    |17.2 is in force|
    |17.3 is in force|))
(define-fun |8.11 stands on deserved| () Bool
  |8.11 is in force|)
(define-fun |8.6 stands on deserved| () Bool
  |8.6 is in force|)
(define-fun |8.1 stands on deserved| () Bool
  |8.1 is in force|)
(define-fun |7.1 stands on deserved| () Bool
  |7.1 is in force|)
(define-fun |6.3 stands on deserved| () Bool
  |6.3 is in force|)
(define-fun |5.5 stands on deserved| () Bool
  |5.5 is in force|)
(define-fun |5.1 stands on deserved| () Bool
  |5.1 is in force|)
(define-fun |4.3 stands on deserved| () Bool
  |4.3 is in force|)
(define-fun |4.1 stands on deserved| () Bool
  |4.1 is in force|)
(define-fun |3.5 stands on deserved| () Bool
  |3.5 is in force|)
(define-fun |deserved may be nothing| () Bool
  (or
    (and
      (or
        |3.5 stands on deserved|
        |4.1 stands on deserved|
        |4.3 stands on deserved|
        |5.1 stands on deserved|
        |5.5 stands on deserved|
        |6.3 stands on deserved|
        |7.1 stands on deserved|
        |8.1 stands on deserved|
        |8.6 stands on deserved|
        |8.11 stands on deserved|)
      (not
        (or
          |1.1 stands on deserved|
          |2.1 stands on deserved|
          |2.2 stands on deserved|
          |2.3 stands on deserved|
          |4.2 stands on deserved|
          |4.4 stands on deserved|
          |5.2 stands on deserved|
          |5.3 stands on deserved|
          |5.4 stands on deserved|
          |6.1 stands on deserved|
          |6.2 stands on deserved|
          |7.2 stands on deserved|
          |7.3 stands on deserved|
          |8.2 stands on deserved|
          |8.3 stands on deserved|
          |8.4 stands on deserved|
          |8.5 stands on deserved|
          |8.7 stands on deserved|
          |8.8 stands on deserved|
          |8.9 stands on deserved|
          |8.10 stands on deserved|
          |8.12 stands on deserved|
          |12.1 stands on deserved|
          |12.2 stands on deserved|
          |13.5 stands on deserved|
          |17.1 stands on deserved|
          |17.2 stands on deserved|
          |17.3 stands on deserved|)))
    (and (not |a clause speaks on deserved|) (not |silence on deserved is a gap|))))
(define-fun |deserved is settled| () Bool
  (and
    (or
      |deserved may be nothing|
      |deserved may be minor|
      |deserved may be major|
      |deserved may be disqualification|)
    (not
      (<=
        2
        (+
          (ite |deserved may be nothing| 1 0)
          (ite |deserved may be minor| 1 0)
          (ite |deserved may be major| 1 0)
          (ite |deserved may be disqualification| 1 0))))))
(define-fun |17.4 is met| () Bool
  (and
    (= |category| 0)
    |deserved is settled|
    |deserved may be minor|
    (and |cautions_before is asked| (<= 0 |cautions_before| 0))))
(define-fun |17.4 is in force| () Bool
  |17.4 is met|)
(define-fun |17.4 stands on penalty| () Bool
  |17.4 is in force|)
(define-fun |11.6 is met| () Bool
  (and |deserved is settled| |deserved may be disqualification|))
(define-fun |11.6 is in force| () Bool
  |11.6 is met|)
(define-fun |11.6 stands on penalty| () Bool
  |11.6 is in force|)
(define-fun |11.5 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be major|
    (and |cautions_before is asked| (<= 1 |cautions_before| 2))))
(define-fun |11.5 is in force| () Bool
  |11.5 is met|)
(define-fun |11.5 stands on penalty| () Bool
  |11.5 is in force|)
(define-fun |11.4 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be major|
    (and |cautions_before is asked| (<= 0 |cautions_before| 0))))
(define-fun |11.4 is in force| () Bool
  |11.4 is met|)
(define-fun |11.4 stands on penalty| () Bool
  |11.4 is in force|)
(define-fun |11.3 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be minor|
    (and |cautions_before is asked| (<= 2 |cautions_before| 2))))
(define-fun |11.3 is in force| () Bool
  |11.3 is met|)
(define-fun |11.3 stands on penalty| () Bool
  |11.3 is in force|)
(define-fun |11.2 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be minor|
    (and |cautions_before is asked| (<= 1 |cautions_before| 1))))
(define-fun |11.2 is in force| () Bool
  |11.2 is met|)
(define-fun |11.2 stands on penalty| () Bool
  |11.2 is in force|)
(define-fun |11.1 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be minor|
    (and |cautions_before is asked| (<= 0 |cautions_before| 0))))
(define-fun |11.1 is in force| () Bool
  |11.1 is met|)
(define-fun |11.1 stands on penalty| () Bool
  (and |11.1 is in force| (not |17.4 is in force|)))
(define-fun |penalty may be disqualification| () Bool
  (and
    (or |11.3 stands on penalty| |11.5 stands on penalty| |11.6 stands on penalty|)
    (not
      (or
        |11.1 stands on penalty|
        |11.2 stands on penalty|
        |11.4 stands on penalty|
        |17.4 stands on penalty|))))
(define-fun |penalty may be second_caution| () Bool
  (and
    (or |11.2 stands on penalty| |11.4 stands on penalty|)
    (not
      (or
        |11.1 stands on penalty|
        |11.3 stands on penalty|
        |11.5 stands on penalty|
        |11.6 stands on penalty|
        |17.4 stands on penalty|))))
(define-fun |penalty may be caution| () Bool
  (and
    |11.1 stands on penalty|
    (not
      (or
        |11.2 stands on penalty|
        |11.3 stands on penalty|
        |11.4 stands on penalty|
        |11.5 stands on penalty|
        |11.6 stands on penalty|
        |17.4 stands on penalty|))))
(define-fun |silence on penalty is a gap| () Bool
  (and
    |deserved is settled|
    (or |deserved may be minor| |deserved may be major| |deserved may be disqualification|)))
(define-fun |a clause speaks on penalty| () Bool
  (or
    |11.1 is in force|
    |11.2 is in force|
    |11.3 is in force|
    |11.4 is in force|
    |11.5 is in force|
    |11.6 is in force|
    |17.4 is in force|))
(define-fun |penalty may be none| () Bool
  (or
    (and
      |17.4 stands on penalty|
      (not
        (or
          |11.1 stands on penalty|
          |11.2 stands on penalty|
          |11.3 stands on penalty|
          |11.4 stands on penalty|
          |11.5 stands on penalty|
          |11.6 stands on penalty|)))
    (and (not |a clause speaks on penalty|) (not |silence on penalty is a gap|))))
(define-fun |penalty is settled| () Bool
  (and
    (or
      |penalty may be none|
      |penalty may be caution|
      |penalty may be second_caution|
      |penalty may be disqualification|)
    (not
      (<=
        2
        (+
          (ite |penalty may be none| 1 0)
          (ite |penalty may be caution| 1 0)
          (ite |penalty may be second_caution| 1 0)
          (ite |penalty may be disqualification| 1 0))))))
(define-fun |11.7 is met| () Bool
  (and |penalty is settled| |penalty may be disqualification|))
(define-fun |11.7 is in force| () Bool
  |11.7 is met|)
(define-fun |a clause speaks on duties| () Bool
  (or
    |8.12 is in force|
    |11.7 is in force|
    |14.1 is in force|
    |14.2 is in force|
    |15.5 is in force|))
(define-fun |duties is settled| () Bool
  |a clause speaks on duties|)
(define-fun |15.5 stands on coach| () Bool
  |15.5 is in force|)
(define-fun |coach_warned is asked| () Bool
  (= |matter| 5))
(define-fun |15.4 is met| () Bool
  (and
    (= |matter| 5)
    (and |coach_act is asked| (or (= |coach_act| 1) (= |coach_act| 2)))
    (and |coach_warned is asked| |coach_warned|)))
(define-fun |15.4 is in force| () Bool
  |15.4 is met|)
(define-fun |15.4 stands on coach| () Bool
  |15.4 is in force|)
(define-fun |15.3 is met| () Bool
  (and
    (= |matter| 5)
    (and |coach_act is asked| (= |coach_act| 2))
    (and |coach_warned is asked| (not |coach_warned|))))
(define-fun |15.3 is in force| () Bool
  |15.3 is met|)
(define-fun |15.3 stands on coach| () Bool
  |15.3 is in force|)
(define-fun |15.2 is met| () Bool
  (and
    (= |matter| 5)
    (and |coach_act is asked| (= |coach_act| 1))
    (and |coach_warned is asked| (not |coach_warned|))))
(define-fun |15.2 is in force| () Bool
  |15.2 is met|)
(define-fun |15.2 stands on coach| () Bool
  |15.2 is in force|)
(define-fun |15.1 is met| () Bool
  (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 0))))
(define-fun |15.1 is in force| () Bool
  |15.1 is met|)
(define-fun |15.1 stands on coach| () Bool
  |15.1 is in force|)
(define-fun |coach may be sent_away| () Bool
  (and
    (or |15.4 stands on coach| |15.5 stands on coach|)
    (not (or |15.1 stands on coach| |15.2 stands on coach| |15.3 stands on coach|))))
(define-fun |coach may be warned| () Bool
  (and
    (or |15.2 stands on coach| |15.3 stands on coach|)
    (not (or |15.1 stands on coach| |15.4 stands on coach| |15.5 stands on coach|))))
(define-fun |coach may be stays| () Bool
  (and
    (or |15.1 stands on coach| |15.3 stands on coach|)
    (not (or |15.2 stands on coach| |15.4 stands on coach| |15.5 stands on coach|))))
(define-fun |coach is settled| () Bool
  (and
    (or |coach may be stays| |coach may be warned| |coach may be sent_away|)
    (not
      (<=
        2
        (+
          (ite |coach may be stays| 1 0)
          (ite |coach may be warned| 1 0)
          (ite |coach may be sent_away| 1 0))))))
(define-fun |physician is asked| () Bool
  (and |injury is asked| (or (= |injury| 0) (= |injury| 2))))
(define-fun |caused_by is asked| () Bool
  (and |injury is asked| (= |injury| 2)))
(define-fun |14.7 is met| () Bool
  (and
    (= |matter| 4)
    (and |physician is asked| (= |physician| 1))
    (and |caused_by is asked| (= |caused_by| 1))))
(define-fun |14.7 is in force| () Bool
  |14.7 is met|)
(define-fun |14.7 stands on result| () Bool
  |14.7 is in force|)
(define-fun |14.6 is met| () Bool
  (and
    (= |matter| 4)
    (and |physician is asked| (= |physician| 1))
    (and |caused_by is asked| (= |caused_by| 0))))
(define-fun |14.6 is in force| () Bool
  |14.6 is met|)
(define-fun |14.6 stands on result| () Bool
  |14.6 is in force|)
(define-fun |14.5 is met| () Bool
  (and
    (= |matter| 4)
    (and |injury is asked| (= |injury| 2))
    (and |physician is asked| (= |physician| 0))))
(define-fun |14.5 is in force| () Bool
  |14.5 is met|)
(define-fun |14.5 stands on result| () Bool
  |14.5 is in force|)
(define-fun |times_treated is asked| () Bool
  (and |injury is asked| (= |injury| 0)))
(define-fun |14.4 is met| () Bool
  (and
    (= |matter| 4)
    (and |injury is asked| (= |injury| 0))
    (or
      (and |physician is asked| (= |physician| 1))
      (and |times_treated is asked| (<= 2 |times_treated| 3)))))
(define-fun |14.4 is in force| () Bool
  |14.4 is met|)
(define-fun |14.4 stands on result| () Bool
  |14.4 is in force|)
(define-fun |14.3 is met| () Bool
  (and
    (= |matter| 4)
    (and |physician is asked| (= |physician| 0))
    (and |times_treated is asked| (<= 0 |times_treated| 1))))
(define-fun |14.3 is in force| () Bool
  |14.3 is met|)
(define-fun |14.3 stands on result| () Bool
  |14.3 is in force|)
(define-fun |14.2 stands on result| () Bool
  |14.2 is in force|)
(define-fun |11.7 stands on result| () Bool
  |11.7 is in force|)
(define-fun |16.1 is met| () Bool
  (and |after_call is asked| |after_call|))
(define-fun |16.1 is in force| () Bool
  |16.1 is met|)
(define-fun |submission is asked| () Bool
  (and |action is asked| (or (= |action| 2) (= |action| 3))))
(define-fun |10.1 is met| () Bool
  (and |submission is asked| |submission|))
(define-fun |10.1 is in force| () Bool
  (and |10.1 is met| (not |16.1 is in force|)))
(define-fun |10.1 stands on worth| () Bool
  |10.1 is in force|)
(define-fun |seconds_held is asked| () Bool
  (and |action is asked| (= |action| 4)))
(define-fun |9.1 is met| () Bool
  (and
    (and |action is asked| (= |action| 4))
    (or
      (and (= |category| 0) (and |seconds_held is asked| (<= 15 |seconds_held| 20)))
      (and (= |category| 1) (and |seconds_held is asked| (<= 20 |seconds_held| 20)))
      (and (= |category| 2) (and |seconds_held is asked| (<= 20 |seconds_held| 20))))))
(define-fun |9.1 is in force| () Bool
  |9.1 is met|)
(define-fun |9.1 stands on worth| () Bool
  |9.1 is in force|)
(define-fun |control is asked| () Bool
  (and |action is asked| (= |action| 1)))
(define-fun |landing is asked| () Bool
  (and |action is asked| (= |action| 1)))
(define-fun |3.1 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    |from_standing is true|
    (and |landing is asked| (= |landing| 3))
    (and |control is asked| (= |control| 2))))
(define-fun |3.1 is in force| () Bool
  |3.1 is met|)
(define-fun |3.1 stands on worth| () Bool
  |3.1 is in force|)
(define-fun |worth may be full| () Bool
  (or |3.1 stands on worth| |9.1 stands on worth| |10.1 stands on worth|))
(define-fun |9.2 is met| () Bool
  (and
    (and |action is asked| (= |action| 4))
    (or
      (and (= |category| 0) (and |seconds_held is asked| (<= 8 |seconds_held| 20)))
      (and (= |category| 1) (and |seconds_held is asked| (<= 10 |seconds_held| 20)))
      (and (= |category| 2) (and |seconds_held is asked| (<= 10 |seconds_held| 20))))
    (or
      (and (= |category| 0) (and |seconds_held is asked| (<= 0 |seconds_held| 14)))
      (and (= |category| 1) (and |seconds_held is asked| (<= 0 |seconds_held| 19)))
      (and (= |category| 2) (and |seconds_held is asked| (<= 0 |seconds_held| 19))))))
(define-fun |9.2 is in force| () Bool
  |9.2 is met|)
(define-fun |9.2 stands on worth| () Bool
  |9.2 is in force|)
(define-fun |3.4 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    (and |phase is asked| (= |phase| 3))
    (and |landing is asked| (= |landing| 3))
    (and |control is asked| (= |control| 2))))
(define-fun |3.4 is in force| () Bool
  |3.4 is met|)
(define-fun |3.4 stands on worth| () Bool
  |3.4 is in force|)
(define-fun |3.3 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    |from_standing is true|
    (and |landing is asked| (or (= |landing| 1) (= |landing| 2)))
    (and |control is asked| (or (= |control| 1) (= |control| 2)))))
(define-fun |3.3 is in force| () Bool
  |3.3 is met|)
(define-fun |3.3 stands on worth| () Bool
  |3.3 is in force|)
(define-fun |3.2 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    |from_standing is true|
    (and |landing is asked| (= |landing| 3))
    (and |control is asked| (= |control| 1))))
(define-fun |3.2 is in force| () Bool
  |3.2 is met|)
(define-fun |3.2 stands on worth| () Bool
  |3.2 is in force|)
(define-fun |worth may be half| () Bool
  (and
    (or |3.2 stands on worth| |3.3 stands on worth| |3.4 stands on worth| |9.2 stands on worth|)
    (not (or |3.1 stands on worth| |9.1 stands on worth| |10.1 stands on worth|))))
(define-fun |silence on worth is a gap| () Bool
  false)
(define-fun |a clause speaks on worth| () Bool
  (or
    |3.1 is in force|
    |3.2 is in force|
    |3.3 is in force|
    |3.4 is in force|
    |9.1 is in force|
    |9.2 is in force|
    |10.1 is in force|))
(define-fun |worth may be nothing| () Bool
  (and (not |a clause speaks on worth|) (not |silence on worth is a gap|)))
(define-fun |worth is settled| () Bool
  (and
    (or |worth may be nothing| |worth may be half| |worth may be full|)
    (not
      (<=
        2
        (+
          (ite |worth may be nothing| 1 0)
          (ite |worth may be half| 1 0)
          (ite |worth may be full| 1 0))))))
(define-fun |10.4 is met| () Bool
  (and |worth is settled| |worth may be half| |deserved is settled| |deserved may be nothing|))
(define-fun |10.4 is in force| () Bool
  (and |10.4 is met| (not |16.1 is in force|)))
(define-fun |10.4 stands on score| () Bool
  |10.4 is in force|)
(define-fun |video is asked| () Bool
  (and |action is asked| (or (= |action| 1) (= |action| 2) (= |action| 3) (= |action| 4))))
(define-fun |10.3 is met| () Bool
  (and
    |worth is settled|
    |worth may be full|
    |deserved is settled|
    |deserved may be nothing|
    (and |video is asked| (= |video| 1))))
(define-fun |10.3 is in force| () Bool
  (and |10.3 is met| (not |16.1 is in force|)))
(define-fun |10.3 stands on score| () Bool
  |10.3 is in force|)
(define-fun |10.2 is met| () Bool
  (and
    |worth is settled|
    |worth may be full|
    |deserved is settled|
    |deserved may be nothing|
    (and |video is asked| (= |video| 0))))
(define-fun |10.2 is in force| () Bool
  (and |10.2 is met| (not |16.1 is in force|)))
(define-fun |10.2 stands on score| () Bool
  |10.2 is in force|)
(define-fun |score may be full| () Bool
  (and |10.2 stands on score| (not (or |10.3 stands on score| |10.4 stands on score|))))
(define-fun |score may be half| () Bool
  (and (or |10.3 stands on score| |10.4 stands on score|) (not |10.2 stands on score|)))
(define-fun |silence on score is a gap| () Bool
  false)
(define-fun |a clause speaks on score| () Bool
  (or |10.2 is in force| |10.3 is in force| |10.4 is in force|))
(define-fun |score may be none| () Bool
  (and (not |a clause speaks on score|) (not |silence on score is a gap|)))
(define-fun |score is settled| () Bool
  (and
    (or |score may be none| |score may be half| |score may be full|)
    (not
      (<=
        2
        (+
          (ite |score may be none| 1 0)
          (ite |score may be half| 1 0)
          (ite |score may be full| 1 0))))))
(define-fun |10.5 is met| () Bool
  (and |score is settled| |score may be full|))
(define-fun |10.5 is in force| () Bool
  (and |10.5 is met| (not |16.1 is in force|)))
(define-fun |10.5 stands on result| () Bool
  |10.5 is in force|)
(define-fun |result may be lost| () Bool
  (and
    (or
      |11.7 stands on result|
      |14.2 stands on result|
      |14.4 stands on result|
      |14.7 stands on result|)
    (not
      (or
        |10.5 stands on result|
        |14.3 stands on result|
        |14.5 stands on result|
        |14.6 stands on result|))))
(define-fun |result may be won| () Bool
  (and
    (or |10.5 stands on result| |14.6 stands on result|)
    (not
      (or
        |11.7 stands on result|
        |14.2 stands on result|
        |14.3 stands on result|
        |14.4 stands on result|
        |14.5 stands on result|
        |14.7 stands on result|))))
(define-fun |silence on result is a gap| () Bool
  (= |matter| 4))
(define-fun |a clause speaks on result| () Bool
  (or
    |10.5 is in force|
    |11.7 is in force|
    |14.2 is in force|
    |14.3 is in force|
    |14.4 is in force|
    |14.5 is in force|
    |14.6 is in force|
    |14.7 is in force|))
(define-fun |result may be open| () Bool
  (or
    (and
      (or |14.3 stands on result| |14.5 stands on result|)
      (not
        (or
          |10.5 stands on result|
          |11.7 stands on result|
          |14.2 stands on result|
          |14.4 stands on result|
          |14.6 stands on result|
          |14.7 stands on result|)))
    (and (not |a clause speaks on result|) (not |silence on result is a gap|))))
(define-fun |result is settled| () Bool
  (and
    (or |result may be open| |result may be won| |result may be lost|)
    (not
      (<=
        2
        (+
          (ite |result may be open| 1 0)
          (ite |result may be won| 1 0)
          (ite |result may be lost| 1 0))))))
(define-fun |16.3 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be nothing|
    (or (= |matter| 1) (and |action is asked| (= |action| 5)))))
(define-fun |16.3 is in force| () Bool
  |16.3 is met|)
(define-fun |7.4 is met| () Bool
  (and
    (and |action is asked| (= |action| 5))
    (and |phase is asked| (or (= |phase| 2) (= |phase| 3)))))
(define-fun |7.4 is in force| () Bool
  |7.4 is met|)
(define-fun |16.3 stands on play| () Bool
  (and |16.3 is in force| (not |7.4 is in force|) (not |16.1 is in force|)))
(define-fun |16.2 is met| () Bool
  (and
    |deserved is settled|
    (or |deserved may be minor| |deserved may be major| |deserved may be disqualification|)))
(define-fun |16.2 is in force| () Bool
  |16.2 is met|)
(define-fun |16.2 stands on play| () Bool
  |16.2 is in force|)
(define-fun |16.1 stands on play| () Bool
  |16.1 is in force|)
(define-fun |15.6 is met| () Bool
  (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 4))))
(define-fun |15.6 is in force| () Bool
  |15.6 is met|)
(define-fun |15.6 stands on play| () Bool
  |15.6 is in force|)
(define-fun |14.1 stands on play| () Bool
  |14.1 is in force|)
(define-fun |13.4 is met| () Bool
  (and
    (= |matter| 3)
    (and |dress_seen is asked| (= |dress_seen| 1))
    (or
      (and
        (and |dress_faults is asked| |dress_faults includes belt|)
        (and
          |dress_faults is asked|
          (not
            (or
              |dress_faults includes jacket|
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|))))
      (and
        (and |dress_faults is asked| |dress_faults includes jacket|)
        (and
          |dress_faults is asked|
          (not
            (or
              |dress_faults includes belt|
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|))))
      (and
        (and
          |dress_faults is asked|
          (and |dress_faults includes belt| |dress_faults includes jacket|))
        (and
          |dress_faults is asked|
          (not
            (or
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|)))))))
(define-fun |13.4 is in force| () Bool
  |13.4 is met|)
(define-fun |13.4 stands on play| () Bool
  |13.4 is in force|)
(define-fun |still_inside is asked| () Bool
  (= |matter| 2))
(define-fun |12.5 is met| () Bool
  (and
    (= |matter| 2)
    (and |left_by is asked| (= |left_by| 2))
    (and
      |still_inside is asked|
      (or |still_inside includes attacker| |still_inside includes defender|))))
(define-fun |12.5 is in force| () Bool
  |12.5 is met|)
(define-fun |12.5 stands on play| () Bool
  |12.5 is in force|)
(define-fun |12.4 is met| () Bool
  (and
    (= |matter| 2)
    (and
      |still_inside is asked|
      (not (or |still_inside includes attacker| |still_inside includes defender|)))))
(define-fun |12.4 is in force| () Bool
  |12.4 is met|)
(define-fun |12.4 stands on play| () Bool
  |12.4 is in force|)
(define-fun |12.3 is met| () Bool
  (and
    (= |matter| 2)
    (and |phase is asked| (not (= |phase| 0)))
    (and
      |still_inside is asked|
      (not (not (or |still_inside includes attacker| |still_inside includes defender|))))))
(define-fun |12.3 is in force| () Bool
  |12.3 is met|)
(define-fun |12.3 stands on play| () Bool
  |12.3 is in force|)
(define-fun |10.2 stands on play| () Bool
  |10.2 is in force|)
(define-fun |9.1 stands on play| () Bool
  |9.1 is in force|)
(define-fun |7.4 stands on play| () Bool
  |7.4 is in force|)
(define-fun |4.5 is met| () Bool
  (and
    (and |action is asked| (= |action| 2))
    (and |phase is asked| (= |phase| 0))
    (and |submission is asked| (not |submission|))))
(define-fun |4.5 is in force| () Bool
  |4.5 is met|)
(define-fun |4.5 stands on play| () Bool
  |4.5 is in force|)
(define-fun |play may be stops| () Bool
  (and
    (or
      |4.5 stands on play|
      |7.4 stands on play|
      |9.1 stands on play|
      |10.2 stands on play|
      |12.4 stands on play|
      |13.4 stands on play|
      |14.1 stands on play|
      |15.6 stands on play|
      |16.1 stands on play|
      |16.2 stands on play|)
    (not (or |12.3 stands on play| |12.5 stands on play| |16.3 stands on play|))))
(define-fun |silence on play is a gap| () Bool
  (or (or (= |matter| 1) (= |matter| 2)) (and |action is asked| (= |action| 5))))
(define-fun |a clause speaks on play| () Bool
  (or
    |4.5 is in force|
    |7.4 is in force|
    |9.1 is in force|
    |10.2 is in force|
    |12.3 is in force|
    |12.4 is in force|
    |12.5 is in force|
    |13.4 is in force|
    |14.1 is in force|
    |15.6 is in force|
    |16.1 is in force|
    |16.2 is in force|
    |16.3 is in force|))
(define-fun |play may be continues| () Bool
  (or
    (and
      (or |12.3 stands on play| |12.5 stands on play| |13.4 stands on play| |16.3 stands on play|)
      (not
        (or
          |4.5 stands on play|
          |7.4 stands on play|
          |9.1 stands on play|
          |10.2 stands on play|
          |12.4 stands on play|
          |14.1 stands on play|
          |15.6 stands on play|
          |16.1 stands on play|
          |16.2 stands on play|)))
    (and (not |a clause speaks on play|) (not |silence on play is a gap|))))
(define-fun |play is settled| () Bool
  (and
    (or |play may be continues| |play may be stops|)
    (not (and |play may be continues| |play may be stops|))))
(define-fun |13.3 is met| () Bool
  (and
    (= |matter| 3)
    (and
      |dress_faults is asked|
      (<=
        3
        (+
          (ite |dress_faults includes belt| 1 0)
          (ite |dress_faults includes jacket| 1 0)
          (ite |dress_faults includes metal| 1 0)
          (ite |dress_faults includes nails| 1 0)
          (ite |dress_faults includes padding| 1 0))))))
(define-fun |13.3 is in force| () Bool
  |13.3 is met|)
(define-fun |13.3 stands on admission| () Bool
  |13.3 is in force|)
(define-fun |sleeve_gap is asked| () Bool
  (= |matter| 3))
(define-fun |13.2 is met| () Bool
  (and
    (= |matter| 3)
    (or
      (and
        |dress_faults is asked|
        (not
          (not
            (or
              |dress_faults includes belt|
              |dress_faults includes jacket|
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|))))
      (and |sleeve_gap is asked| (<= 0 |sleeve_gap| 19)))))
(define-fun |13.2 is in force| () Bool
  |13.2 is met|)
(define-fun |13.2 stands on admission| () Bool
  (and |13.2 is in force| (not |13.3 is in force|)))
(define-fun |13.1 is met| () Bool
  (and
    (= |matter| 3)
    (not
      (and
        |dress_faults is asked|
        (not
          (not
            (or
              |dress_faults includes belt|
              |dress_faults includes jacket|
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|)))))
    (not (and |sleeve_gap is asked| (<= 0 |sleeve_gap| 19)))))
(define-fun |13.1 is in force| () Bool
  |13.1 is met|)
(define-fun |13.1 stands on admission| () Bool
  |13.1 is in force|)
(define-fun |admission may be refused| () Bool
  (and |13.3 stands on admission| (not (or |13.1 stands on admission| |13.2 stands on admission|))))
(define-fun |admission may be after_mending| () Bool
  (and |13.2 stands on admission| (not (or |13.1 stands on admission| |13.3 stands on admission|))))
(define-fun |admission may be admitted| () Bool
  (and |13.1 stands on admission| (not (or |13.2 stands on admission| |13.3 stands on admission|))))
(define-fun |admission is settled| () Bool
  (and
    (or |admission may be admitted| |admission may be after_mending| |admission may be refused|)
    (not
      (<=
        2
        (+
          (ite |admission may be admitted| 1 0)
          (ite |admission may be after_mending| 1 0)
          (ite |admission may be refused| 1 0))))))
(define-fun |14.2 stands on duties| () Bool
  |14.2 is in force|)
(define-fun |duties may be stand_down| () Bool
  |14.2 stands on duties|)
(define-fun |15.5 stands on duties| () Bool
  |15.5 is in force|)
(define-fun |11.7 stands on duties| () Bool
  |11.7 is in force|)
(define-fun |8.12 stands on duties| () Bool
  |8.12 is in force|)
(define-fun |duties may be report| () Bool
  (or |8.12 stands on duties| |11.7 stands on duties| |15.5 stands on duties|))
(define-fun |14.1 stands on duties| () Bool
  |14.1 is in force|)
(define-fun |duties may be call_physician| () Bool
  |14.1 stands on duties|)
(define-fun |rulings clash on duties| () Bool
  false)
(define-fun |a clause speaks on coach| () Bool
  (or
    |15.1 is in force|
    |15.2 is in force|
    |15.3 is in force|
    |15.4 is in force|
    |15.5 is in force|))
(define-fun |rulings clash on coach| () Bool
  (and
    |a clause speaks on coach|
    (not (or |coach may be stays| |coach may be warned| |coach may be sent_away|))))
(define-fun |rulings clash on result| () Bool
  (and
    |a clause speaks on result|
    (not (or |result may be open| |result may be won| |result may be lost|))))
(define-fun |rulings clash on play| () Bool
  (and |a clause speaks on play| (not (or |play may be continues| |play may be stops|))))
(define-fun |rulings clash on score| () Bool
  (and
    |a clause speaks on score|
    (not (or |score may be none| |score may be half| |score may be full|))))
(define-fun |rulings clash on penalty| () Bool
  (and
    |a clause speaks on penalty|
    (not
      (or
        |penalty may be none|
        |penalty may be caution|
        |penalty may be second_caution|
        |penalty may be disqualification|))))
(define-fun |a clause speaks on admission| () Bool
  (or |13.1 is in force| |13.2 is in force| |13.3 is in force|))
(define-fun |rulings clash on admission| () Bool
  (and
    |a clause speaks on admission|
    (not
      (or |admission may be admitted| |admission may be after_mending| |admission may be refused|))))
(define-fun |silence on duties is a gap| () Bool
  (= |matter| 4))
(define-fun |there is a gap in duties| () Bool
  (and |silence on duties is a gap| (not |a clause speaks on duties|)))
(define-fun |silence on coach is a gap| () Bool
  (= |matter| 5))
(define-fun |there is a gap in coach| () Bool
  (and |silence on coach is a gap| (not |a clause speaks on coach|)))
(define-fun |there is a gap in result| () Bool
  (and |silence on result is a gap| (not |a clause speaks on result|)))
(define-fun |there is a gap in play| () Bool
  (and |silence on play is a gap| (not |a clause speaks on play|)))
(define-fun |there is a gap in score| () Bool
  (and |silence on score is a gap| (not |a clause speaks on score|)))
(define-fun |there is a gap in penalty| () Bool
  (and |silence on penalty is a gap| (not |a clause speaks on penalty|)))
(define-fun |silence on admission is a gap| () Bool
  (= |matter| 3))
(define-fun |there is a gap in admission| () Bool
  (and |silence on admission is a gap| (not |a clause speaks on admission|)))
(define-fun |the background is kept| () Bool
  (and
    (not (and (and |action is asked| (= |action| 4)) (and |phase is asked| (not (= |phase| 2)))))
    (not (and (and |action is asked| (= |action| 1)) (and |phase is asked| (= |phase| 2))))
    (not (and (and |action is asked| (= |action| 5)) (and |phase is asked| (= |phase| 1))))
    (not
      (and
        (and |left_by is asked| (= |left_by| 0))
        (and |still_inside is asked| (not |still_inside includes defender|))))
    (not (and (and |left_by is asked| (= |left_by| 0)) (and |phase is asked| (= |phase| 2))))))

; The same with a small change made to the rules. Each question says which: they are counted in the
; order of the questions.
(declare-const |the change that is made| Int)
(define-fun |changed: 15.5 is met| () Bool
  (ite
    (= |the change that is made| 178)
    (= |matter| 5)
    (and (= |matter| 5) (and |coach_act is asked| (or (= |coach_act| 3) (= |coach_act| 4))))))
(define-fun |changed: 15.5 is in force| () Bool
  |changed: 15.5 is met|)
(define-fun |changed: 14.2 is met| () Bool
  (ite
    (= |the change that is made| 150)
    (= |matter| 4)
    (and (= |matter| 4) (and |injury is asked| (= |injury| 1)))))
(define-fun |changed: 14.2 is in force| () Bool
  |changed: 14.2 is met|)
(define-fun |changed: 14.1 is met| () Bool
  (= |matter| 4))
(define-fun |changed: 14.1 is in force| () Bool
  |changed: 14.1 is met|)
(define-fun |changed: 17.3 is met| () Bool
  (ite
    (= |the change that is made| 195)
    (= |category| 2)
    (ite
      (= |the change that is made| 194)
      (and |lift_end is asked| (= |lift_end| 1))
      (ite
        (= |the change that is made| 193)
        true
        (and (= |category| 2) (and |lift_end is asked| (= |lift_end| 1)))))))
(define-fun |changed: 17.3 is in force| () Bool
  |changed: 17.3 is met|)
(define-fun |changed: 17.3 stands on deserved| () Bool
  |changed: 17.3 is in force|)
(define-fun |changed: 17.2 is met| () Bool
  (ite
    (= |the change that is made| 192)
    (= |category| 2)
    (ite
      (= |the change that is made| 191)
      (and |entry is asked| (= |entry| 1))
      (ite
        (= |the change that is made| 190)
        true
        (and (= |category| 2) (and |entry is asked| (= |entry| 1)))))))
(define-fun |changed: 17.2 is in force| () Bool
  |changed: 17.2 is met|)
(define-fun |changed: 17.2 stands on deserved| () Bool
  |changed: 17.2 is in force|)
(define-fun |changed: 8.7 is met| () Bool
  (ite
    (= |the change that is made| 77)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 1)))
    (ite
      (= |the change that is made| 76)
      (and (= |matter| 1) (and |after_call is asked| |after_call|))
      (ite
        (= |the change that is made| 75)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 1))
          (and |after_call is asked| |after_call|))))))
(define-fun |changed: 8.7 is in force| () Bool
  |changed: 8.7 is met|)
(define-fun |changed: 8.7 stands on deserved| () Bool
  |changed: 8.7 is in force|)
(define-fun |changed: 8.4 is met| () Bool
  (ite
    (= |the change that is made| 68)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 1)))
    (ite
      (= |the change that is made| 67)
      (and (= |matter| 1) (and |deliberate is asked| |deliberate|))
      (ite
        (= |the change that is made| 66)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 1))
          (and |deliberate is asked| |deliberate|))))))
(define-fun |changed: 8.4 is in force| () Bool
  |changed: 8.4 is met|)
(define-fun |changed: 8.4 stands on deserved| () Bool
  |changed: 8.4 is in force|)
(define-fun |changed: 8.3 is met| () Bool
  (ite
    (= |the change that is made| 65)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 0)))
    (ite
      (= |the change that is made| 64)
      (and (= |matter| 1) (and |force is asked| (= |force| 2)))
      (ite
        (= |the change that is made| 63)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 0))
          (and |force is asked| (= |force| 2)))))))
(define-fun |changed: 8.3 is in force| () Bool
  |changed: 8.3 is met|)
(define-fun |changed: 8.3 stands on deserved| () Bool
  |changed: 8.3 is in force|)
(define-fun |changed: 7.3 is met| () Bool
  (ite
    (= |the change that is made| 55)
    (and |action is asked| (= |action| 5))
    (and (and |action is asked| (= |action| 5)) (and |lift_end is asked| (= |lift_end| 2)))))
(define-fun |changed: 7.3 is in force| () Bool
  |changed: 7.3 is met|)
(define-fun |changed: 7.3 stands on deserved| () Bool
  |changed: 7.3 is in force|)
(define-fun |changed: 4.3 is met| () Bool
  (ite
    (= |the change that is made| 33)
    (and |action is asked| (= |action| 2))
    (and (and |action is asked| (= |action| 2)) (and |way_under is asked| (= |way_under| 1)))))
(define-fun |changed: 4.3 is in force| () Bool
  |changed: 4.3 is met|)
(define-fun |changed: 4.2 is met| () Bool
  (ite
    (= |the change that is made| 32)
    (and (and |action is asked| (= |action| 2)) |from_standing is true|)
    (ite
      (= |the change that is made| 31)
      (and (and |action is asked| (= |action| 2)) (and |weight_dropped is asked| |weight_dropped|))
      (ite
        (= |the change that is made| 30)
        (and |action is asked| (= |action| 2))
        (and
          (and |action is asked| (= |action| 2))
          |from_standing is true|
          (and |weight_dropped is asked| |weight_dropped|))))))
(define-fun |changed: 4.2 is in force| () Bool
  |changed: 4.2 is met|)
(define-fun |changed: 4.2 stands on deserved| () Bool
  (and |changed: 4.2 is in force| (not |changed: 4.3 is in force|)))
(define-fun |changed: 5.5 is met| () Bool
  (ite
    (= |the change that is made| 47)
    (and (and |action is asked| (= |action| 3)) (and |leg_state is asked| (= |leg_state| 1)))
    (ite
      (= |the change that is made| 46)
      (and (and |action is asked| (= |action| 3)) (and |leg_held is asked| (= |leg_held| 1)))
      (ite
        (= |the change that is made| 45)
        (and |action is asked| (= |action| 3))
        (and
          (and |action is asked| (= |action| 3))
          (and |leg_state is asked| (= |leg_state| 1))
          (and |leg_held is asked| (= |leg_held| 1)))))))
(define-fun |changed: 5.5 is in force| () Bool
  |changed: 5.5 is met|)
(define-fun |changed: 5.4 is met| () Bool
  (ite
    (= |the change that is made| 44)
    (and (and |action is asked| (= |action| 3)) (and |leg_state is asked| (= |leg_state| 1)))
    (ite
      (= |the change that is made| 43)
      (and (and |action is asked| (= |action| 3)) (and |leg_held is asked| (= |leg_held| 2)))
      (ite
        (= |the change that is made| 42)
        (and |action is asked| (= |action| 3))
        (and
          (and |action is asked| (= |action| 3))
          (and |leg_state is asked| (= |leg_state| 1))
          (and |leg_held is asked| (= |leg_held| 2)))))))
(define-fun |changed: 5.4 is in force| () Bool
  |changed: 5.4 is met|)
(define-fun |changed: 1.1 is met| () Bool
  (ite (= |the change that is made| 3) true |joint_attack is true|))
(define-fun |changed: 1.1 is in force| () Bool
  |changed: 1.1 is met|)
(define-fun |changed: 1.1 stands on deserved| () Bool
  (and |changed: 1.1 is in force| (not |changed: 5.4 is in force|) (not |changed: 5.5 is in force|)))
(define-fun |changed: deserved may be disqualification| () Bool
  (or
    |changed: 1.1 stands on deserved|
    |changed: 4.2 stands on deserved|
    |changed: 7.3 stands on deserved|
    |changed: 8.3 stands on deserved|
    |changed: 8.4 stands on deserved|
    |changed: 8.7 stands on deserved|
    |changed: 17.2 stands on deserved|
    |changed: 17.3 stands on deserved|))
(define-fun |changed: 17.1 is met| () Bool
  (ite
    (= |the change that is made| 189)
    (= |category| 0)
    (ite
      (= |the change that is made| 188)
      (and |action is asked| (or (= |action| 2) (= |action| 3)))
      (ite
        (= |the change that is made| 187)
        true
        (and (= |category| 0) (and |action is asked| (or (= |action| 2) (= |action| 3))))))))
(define-fun |changed: 17.1 is in force| () Bool
  |changed: 17.1 is met|)
(define-fun |changed: 17.1 stands on deserved| () Bool
  |changed: 17.1 is in force|)
(define-fun |changed: 8.12 is met| () Bool
  (ite
    (= |the change that is made| 86)
    (= |matter| 1)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 5)))))
(define-fun |changed: 8.12 is in force| () Bool
  |changed: 8.12 is met|)
(define-fun |changed: 8.12 stands on deserved| () Bool
  |changed: 8.12 is in force|)
(define-fun |changed: 8.8 is met| () Bool
  (ite
    (= |the change that is made| 78)
    (= |matter| 1)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 2)))))
(define-fun |changed: 8.8 is in force| () Bool
  |changed: 8.8 is met|)
(define-fun |changed: 8.8 stands on deserved| () Bool
  |changed: 8.8 is in force|)
(define-fun |changed: 7.2 is met| () Bool
  (ite
    (= |the change that is made| 54)
    (and |action is asked| (= |action| 5))
    (and (and |action is asked| (= |action| 5)) (and |lift_end is asked| (= |lift_end| 1)))))
(define-fun |changed: 7.2 is in force| () Bool
  |changed: 7.2 is met|)
(define-fun |changed: 7.2 stands on deserved| () Bool
  |changed: 7.2 is in force|)
(define-fun |changed: 5.3 is met| () Bool
  (ite
    (= |the change that is made| 41)
    (and |action is asked| (= |action| 3))
    (and
      (and |action is asked| (= |action| 3))
      (and |strangle_with is asked| (= |strangle_with| 4)))))
(define-fun |changed: 5.3 is in force| () Bool
  |changed: 5.3 is met|)
(define-fun |changed: 5.3 stands on deserved| () Bool
  |changed: 5.3 is in force|)
(define-fun |changed: 4.4 is met| () Bool
  (ite
    (= |the change that is made| 35)
    (and
      (and |action is asked| (= |action| 2))
      (not (and |phase is asked| (or (= |phase| 2) (= |phase| 3)))))
    (ite
      (= |the change that is made| 34)
      (and (and |action is asked| (= |action| 2)) (and |entry is asked| (= |entry| 1)))
      (and
        (and |action is asked| (= |action| 2))
        (and |entry is asked| (= |entry| 1))
        (not (and |phase is asked| (or (= |phase| 2) (= |phase| 3))))))))
(define-fun |changed: 4.4 is in force| () Bool
  |changed: 4.4 is met|)
(define-fun |changed: 4.4 stands on deserved| () Bool
  |changed: 4.4 is in force|)
(define-fun |changed: deserved may be major| () Bool
  (and
    (or
      |changed: 4.4 stands on deserved|
      |changed: 5.3 stands on deserved|
      |changed: 7.2 stands on deserved|
      |changed: 8.8 stands on deserved|
      |changed: 8.12 stands on deserved|
      |changed: 17.1 stands on deserved|)
    (not
      (or
        |changed: 1.1 stands on deserved|
        |changed: 4.2 stands on deserved|
        |changed: 7.3 stands on deserved|
        |changed: 8.3 stands on deserved|
        |changed: 8.4 stands on deserved|
        |changed: 8.7 stands on deserved|
        |changed: 17.2 stands on deserved|
        |changed: 17.3 stands on deserved|))))
(define-fun |changed: 13.5 is met| () Bool
  (ite
    (= |the change that is made| 149)
    (and (= |matter| 3) (and |dress_seen is asked| (= |dress_seen| 1)))
    (ite
      (= |the change that is made| 148)
      (and
        (= |matter| 3)
        (and
          |dress_faults is asked|
          (or
            |dress_faults includes metal|
            |dress_faults includes nails|
            |dress_faults includes padding|)))
      (ite
        (= |the change that is made| 147)
        (= |matter| 3)
        (and
          (= |matter| 3)
          (and |dress_seen is asked| (= |dress_seen| 1))
          (and
            |dress_faults is asked|
            (or
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|)))))))
(define-fun |changed: 13.5 is in force| () Bool
  |changed: 13.5 is met|)
(define-fun |changed: 13.5 stands on deserved| () Bool
  |changed: 13.5 is in force|)
(define-fun |changed: 12.2 is met| () Bool
  (ite
    (= |the change that is made| 126)
    (and (= |matter| 2) (and |phase is asked| (= |phase| 0)))
    (ite
      (= |the change that is made| 125)
      (and (= |matter| 2) (and |left_by is asked| (= |left_by| 1)))
      (ite
        (= |the change that is made| 124)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |phase is asked| (= |phase| 0))
          (and |left_by is asked| (= |left_by| 1)))))))
(define-fun |changed: 12.2 is in force| () Bool
  |changed: 12.2 is met|)
(define-fun |changed: 12.2 stands on deserved| () Bool
  |changed: 12.2 is in force|)
(define-fun |changed: 12.1 is met| () Bool
  (ite
    (= |the change that is made| 123)
    (and (= |matter| 2) (and |phase is asked| (= |phase| 0)))
    (ite
      (= |the change that is made| 122)
      (and (= |matter| 2) (and |left_by is asked| (= |left_by| 0)))
      (ite
        (= |the change that is made| 121)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |phase is asked| (= |phase| 0))
          (and |left_by is asked| (= |left_by| 0)))))))
(define-fun |changed: 12.1 is in force| () Bool
  |changed: 12.1 is met|)
(define-fun |changed: 12.1 stands on deserved| () Bool
  |changed: 12.1 is in force|)
(define-fun |changed: 8.10 is met| () Bool
  (ite
    (= |the change that is made| 82)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 4)))
    (ite
      (= |the change that is made| 81)
      (and (= |matter| 1) (and |deliberate is asked| |deliberate|))
      (ite
        (= |the change that is made| 80)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 4))
          (and |deliberate is asked| |deliberate|))))))
(define-fun |changed: 8.10 is in force| () Bool
  |changed: 8.10 is met|)
(define-fun |changed: 8.10 stands on deserved| () Bool
  |changed: 8.10 is in force|)
(define-fun |changed: 8.9 is met| () Bool
  (ite
    (= |the change that is made| 79)
    (= |matter| 1)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 3)))))
(define-fun |changed: 8.9 is in force| () Bool
  |changed: 8.9 is met|)
(define-fun |changed: 8.9 stands on deserved| () Bool
  |changed: 8.9 is in force|)
(define-fun |changed: 8.5 is met| () Bool
  (ite
    (= |the change that is made| 71)
    (and
      (= |matter| 1)
      (and |conduct is asked| (= |conduct| 1))
      (and |deliberate is asked| (not |deliberate|)))
    (ite
      (= |the change that is made| 70)
      (and (= |matter| 1) (and |conduct is asked| (= |conduct| 1)) |hard_contact is true|)
      (ite
        (= |the change that is made| 69)
        (= |matter| 1)
        (ite
          (= |the change that is made| 1)
          (and (= |matter| 1) (and |deliberate is asked| (not |deliberate|)) |hard_contact is true|)
          (and
            (= |matter| 1)
            (and |conduct is asked| (= |conduct| 1))
            (and |deliberate is asked| (not |deliberate|))
            |hard_contact is true|))))))
(define-fun |changed: 8.5 is in force| () Bool
  |changed: 8.5 is met|)
(define-fun |changed: 8.5 stands on deserved| () Bool
  |changed: 8.5 is in force|)
(define-fun |changed: 8.2 is met| () Bool
  (ite
    (= |the change that is made| 62)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 0)))
    (ite
      (= |the change that is made| 61)
      (and (= |matter| 1) (and |force is asked| (= |force| 1)))
      (ite
        (= |the change that is made| 60)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 0))
          (and |force is asked| (= |force| 1)))))))
(define-fun |changed: 8.2 is in force| () Bool
  |changed: 8.2 is met|)
(define-fun |changed: 8.2 stands on deserved| () Bool
  |changed: 8.2 is in force|)
(define-fun |changed: 6.2 is met| () Bool
  (ite
    (= |the change that is made| 51)
    (and (and |hand_on_leg is asked| |hand_on_leg|) (and |phase is asked| (= |phase| 1)))
    (ite
      (= |the change that is made| 50)
      (and
        (and |hand_on_leg is asked| |hand_on_leg|)
        (and |action is asked| (or (= |action| 0) (= |action| 1))))
      (ite
        (= |the change that is made| 49)
        (and |hand_on_leg is asked| |hand_on_leg|)
        (and
          (and |hand_on_leg is asked| |hand_on_leg|)
          (and |phase is asked| (= |phase| 1))
          (and |action is asked| (or (= |action| 0) (= |action| 1))))))))
(define-fun |changed: 6.2 is in force| () Bool
  |changed: 6.2 is met|)
(define-fun |changed: 6.2 stands on deserved| () Bool
  |changed: 6.2 is in force|)
(define-fun |changed: 6.1 is met| () Bool
  (ite
    (= |the change that is made| 48)
    (and |hand_on_leg is asked| |hand_on_leg|)
    (and (and |hand_on_leg is asked| |hand_on_leg|) (and |phase is asked| (= |phase| 0)))))
(define-fun |changed: 6.1 is in force| () Bool
  |changed: 6.1 is met|)
(define-fun |changed: 6.1 stands on deserved| () Bool
  |changed: 6.1 is in force|)
(define-fun |changed: 5.4 stands on deserved| () Bool
  |changed: 5.4 is in force|)
(define-fun |changed: 5.2 is met| () Bool
  (ite
    (= |the change that is made| 40)
    (and |action is asked| (= |action| 3))
    (and
      (and |action is asked| (= |action| 3))
      (and |strangle_with is asked| (or (= |strangle_with| 2) (= |strangle_with| 3))))))
(define-fun |changed: 5.2 is in force| () Bool
  |changed: 5.2 is met|)
(define-fun |changed: 5.2 stands on deserved| () Bool
  |changed: 5.2 is in force|)
(define-fun |changed: 2.3 is met| () Bool
  (ite
    (= |the change that is made| 11)
    (and |action is asked| (= |action| 0))
    (and
      (and |action is asked| (= |action| 0))
      (or
        (and
          (= |category| 0)
          (and |seconds_without_attack is asked| (<= 8 |seconds_without_attack| 12)))
        (and
          (= |category| 1)
          (and |seconds_without_attack is asked| (<= 6 |seconds_without_attack| 12)))
        (and
          (= |category| 2)
          (and |seconds_without_attack is asked| (<= 9 |seconds_without_attack| 12)))))))
(define-fun |changed: 2.3 is in force| () Bool
  |changed: 2.3 is met|)
(define-fun |changed: 2.3 stands on deserved| () Bool
  |changed: 2.3 is in force|)
(define-fun |changed: 2.2 is met| () Bool
  (ite
    (= |the change that is made| 10)
    (and (and |action is asked| (= |action| 0)) (and |left_hand is asked| (= |left_hand| 3)))
    (ite
      (= |the change that is made| 9)
      (and (and |action is asked| (= |action| 0)) (and |right_hand is asked| (= |right_hand| 3)))
      (ite
        (= |the change that is made| 8)
        (and |action is asked| (= |action| 0))
        (and
          (and |action is asked| (= |action| 0))
          (or
            (and |left_hand is asked| (= |left_hand| 3))
            (and |right_hand is asked| (= |right_hand| 3))))))))
(define-fun |changed: 2.2 is in force| () Bool
  |changed: 2.2 is met|)
(define-fun |changed: 2.2 stands on deserved| () Bool
  |changed: 2.2 is in force|)
(define-fun |changed: 2.1 is met| () Bool
  (ite
    (= |the change that is made| 7)
    (and
      (and |action is asked| (= |action| 0))
      (and |phase is asked| (= |phase| 0))
      (not |attack_at_once is true|))
    (ite
      (= |the change that is made| 6)
      (and
        (and |action is asked| (= |action| 0))
        |unusual_grip is true|
        (not |attack_at_once is true|))
      (ite
        (= |the change that is made| 5)
        (and (and |action is asked| (= |action| 0)) (not |attack_at_once is true|))
        (ite
          (= |the change that is made| 4)
          (and
            (and |action is asked| (= |action| 0))
            (and |phase is asked| (= |phase| 0))
            |unusual_grip is true|)
          (and
            (and |action is asked| (= |action| 0))
            (and |phase is asked| (= |phase| 0))
            |unusual_grip is true|
            (not |attack_at_once is true|)))))))
(define-fun |changed: 2.1 is in force| () Bool
  |changed: 2.1 is met|)
(define-fun |changed: 2.1 stands on deserved| () Bool
  |changed: 2.1 is in force|)
(define-fun |changed: deserved may be minor| () Bool
  (and
    (or
      |changed: 2.1 stands on deserved|
      |changed: 2.2 stands on deserved|
      |changed: 2.3 stands on deserved|
      |changed: 5.2 stands on deserved|
      |changed: 5.4 stands on deserved|
      |changed: 6.1 stands on deserved|
      |changed: 6.2 stands on deserved|
      |changed: 8.2 stands on deserved|
      |changed: 8.5 stands on deserved|
      |changed: 8.9 stands on deserved|
      |changed: 8.10 stands on deserved|
      |changed: 12.1 stands on deserved|
      |changed: 12.2 stands on deserved|
      |changed: 13.5 stands on deserved|)
    (not
      (or
        |changed: 1.1 stands on deserved|
        |changed: 4.2 stands on deserved|
        |changed: 4.4 stands on deserved|
        |changed: 5.3 stands on deserved|
        |changed: 7.2 stands on deserved|
        |changed: 7.3 stands on deserved|
        |changed: 8.3 stands on deserved|
        |changed: 8.4 stands on deserved|
        |changed: 8.7 stands on deserved|
        |changed: 8.8 stands on deserved|
        |changed: 8.12 stands on deserved|
        |changed: 17.1 stands on deserved|
        |changed: 17.2 stands on deserved|
        |changed: 17.3 stands on deserved|))))
(define-fun |changed: silence on deserved is a gap| () Bool
  (or
    (and |action is asked| (or (= |action| 1) (= |action| 2) (= |action| 3) (= |action| 5)))
    (and |hand_on_leg is asked| |hand_on_leg|)
    (= |matter| 1)))
(define-fun |changed: 8.11 is met| () Bool
  (ite
    (= |the change that is made| 85)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 4)))
    (ite
      (= |the change that is made| 84)
      (and (= |matter| 1) (and |deliberate is asked| (not |deliberate|)))
      (ite
        (= |the change that is made| 83)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 4))
          (and |deliberate is asked| (not |deliberate|)))))))
(define-fun |changed: 8.11 is in force| () Bool
  |changed: 8.11 is met|)
(define-fun |changed: 8.6 is met| () Bool
  (ite
    (= |the change that is made| 74)
    (and
      (= |matter| 1)
      (and |conduct is asked| (= |conduct| 1))
      (and |deliberate is asked| (not |deliberate|)))
    (ite
      (= |the change that is made| 73)
      (and (= |matter| 1) (and |conduct is asked| (= |conduct| 1)) |hard_contact is false|)
      (ite
        (= |the change that is made| 72)
        (= |matter| 1)
        (ite
          (= |the change that is made| 2)
          (and
            (= |matter| 1)
            (and |deliberate is asked| (not |deliberate|))
            |hard_contact is false|)
          (and
            (= |matter| 1)
            (and |conduct is asked| (= |conduct| 1))
            (and |deliberate is asked| (not |deliberate|))
            |hard_contact is false|))))))
(define-fun |changed: 8.6 is in force| () Bool
  |changed: 8.6 is met|)
(define-fun |changed: 8.1 is met| () Bool
  (ite
    (= |the change that is made| 59)
    (and (= |matter| 1) (and |conduct is asked| (= |conduct| 0)))
    (ite
      (= |the change that is made| 58)
      (and (= |matter| 1) (and |force is asked| (= |force| 0)))
      (ite
        (= |the change that is made| 57)
        (= |matter| 1)
        (and
          (= |matter| 1)
          (and |conduct is asked| (= |conduct| 0))
          (and |force is asked| (= |force| 0)))))))
(define-fun |changed: 8.1 is in force| () Bool
  |changed: 8.1 is met|)
(define-fun |changed: 7.1 is met| () Bool
  (ite
    (= |the change that is made| 53)
    (and |action is asked| (= |action| 5))
    (and (and |action is asked| (= |action| 5)) (and |lift_end is asked| (= |lift_end| 0)))))
(define-fun |changed: 7.1 is in force| () Bool
  |changed: 7.1 is met|)
(define-fun |changed: 6.3 is met| () Bool
  (ite
    (= |the change that is made| 52)
    (and |hand_on_leg is asked| |hand_on_leg|)
    (and
      (and |hand_on_leg is asked| |hand_on_leg|)
      (and |phase is asked| (or (= |phase| 2) (= |phase| 3))))))
(define-fun |changed: 6.3 is in force| () Bool
  |changed: 6.3 is met|)
(define-fun |changed: 5.1 is met| () Bool
  (ite
    (= |the change that is made| 39)
    (and |action is asked| (= |action| 3))
    (and
      (and |action is asked| (= |action| 3))
      (and |strangle_with is asked| (or (= |strangle_with| 0) (= |strangle_with| 1))))))
(define-fun |changed: 5.1 is in force| () Bool
  |changed: 5.1 is met|)
(define-fun |changed: 4.1 is met| () Bool
  (ite
    (= |the change that is made| 29)
    (and |action is asked| (= |action| 2))
    (and (and |action is asked| (= |action| 2)) (and |pressure is asked| (= |pressure| 0)))))
(define-fun |changed: 4.1 is in force| () Bool
  |changed: 4.1 is met|)
(define-fun |changed: 3.5 is met| () Bool
  (ite
    (= |the change that is made| 28)
    (and |action is asked| (= |action| 1))
    (and
      (and |action is asked| (= |action| 1))
      (and |held_by is asked| (or (= |held_by| 0) (= |held_by| 2))))))
(define-fun |changed: 3.5 is in force| () Bool
  |changed: 3.5 is met|)
(define-fun |changed: a clause speaks on deserved| () Bool
  (or
    |changed: 1.1 is in force|
    |changed: 2.1 is in force|
    |changed: 2.2 is in force|
    |changed: 2.3 is in force|
    |changed: 3.5 is in force|
    |changed: 4.1 is in force|
    |changed: 4.2 is in force|
    |changed: 4.3 is in force|
    |changed: 4.4 is in force|
    |changed: 5.1 is in force|
    |changed: 5.2 is in force|
    |changed: 5.3 is in force|
    |changed: 5.4 is in force|
    |changed: 5.5 is in force|
    |changed: 6.1 is in force|
    |changed: 6.2 is in force|
    |changed: 6.3 is in force|
    |changed: 7.1 is in force|
    |changed: 7.2 is in force|
    |changed: 7.3 is in force|
    |changed: 8.1 is in force|
    |changed: 8.2 is in force|
    |changed: 8.3 is in force|
    |changed: 8.4 is in force|
    |changed: 8.5 is in force|
    |changed: 8.6 is in force|
    |changed: 8.7 is in force|
    |changed: 8.8 is in force|
    |changed: 8.9 is in force|
    |changed: 8.10 is in force|
    |changed: 8.11 is in force|
    |changed: 8.12 is in force|
    |changed: 12.1 is in force|
    |changed: 12.2 is in force|
    |changed: 13.5 is in force|
    |changed: 17.1 is in force|
    |changed: 17.2 is in force|
    |changed: 17.3 is in force|))
(define-fun |changed: 8.11 stands on deserved| () Bool
  |changed: 8.11 is in force|)
(define-fun |changed: 8.6 stands on deserved| () Bool
  |changed: 8.6 is in force|)
(define-fun |changed: 8.1 stands on deserved| () Bool
  |changed: 8.1 is in force|)
(define-fun |changed: 7.1 stands on deserved| () Bool
  |changed: 7.1 is in force|)
(define-fun |changed: 6.3 stands on deserved| () Bool
  |changed: 6.3 is in force|)
(define-fun |changed: 5.5 stands on deserved| () Bool
  |changed: 5.5 is in force|)
(define-fun |changed: 5.1 stands on deserved| () Bool
  |changed: 5.1 is in force|)
(define-fun |changed: 4.3 stands on deserved| () Bool
  |changed: 4.3 is in force|)
(define-fun |changed: 4.1 stands on deserved| () Bool
  |changed: 4.1 is in force|)
(define-fun |changed: 3.5 stands on deserved| () Bool
  |changed: 3.5 is in force|)
(define-fun |changed: deserved may be nothing| () Bool
  (or
    (and
      (or
        |changed: 3.5 stands on deserved|
        |changed: 4.1 stands on deserved|
        |changed: 4.3 stands on deserved|
        |changed: 5.1 stands on deserved|
        |changed: 5.5 stands on deserved|
        |changed: 6.3 stands on deserved|
        |changed: 7.1 stands on deserved|
        |changed: 8.1 stands on deserved|
        |changed: 8.6 stands on deserved|
        |changed: 8.11 stands on deserved|)
      (not
        (or
          |changed: 1.1 stands on deserved|
          |changed: 2.1 stands on deserved|
          |changed: 2.2 stands on deserved|
          |changed: 2.3 stands on deserved|
          |changed: 4.2 stands on deserved|
          |changed: 4.4 stands on deserved|
          |changed: 5.2 stands on deserved|
          |changed: 5.3 stands on deserved|
          |changed: 5.4 stands on deserved|
          |changed: 6.1 stands on deserved|
          |changed: 6.2 stands on deserved|
          |changed: 7.2 stands on deserved|
          |changed: 7.3 stands on deserved|
          |changed: 8.2 stands on deserved|
          |changed: 8.3 stands on deserved|
          |changed: 8.4 stands on deserved|
          |changed: 8.5 stands on deserved|
          |changed: 8.7 stands on deserved|
          |changed: 8.8 stands on deserved|
          |changed: 8.9 stands on deserved|
          |changed: 8.10 stands on deserved|
          |changed: 8.12 stands on deserved|
          |changed: 12.1 stands on deserved|
          |changed: 12.2 stands on deserved|
          |changed: 13.5 stands on deserved|
          |changed: 17.1 stands on deserved|
          |changed: 17.2 stands on deserved|
          |changed: 17.3 stands on deserved|)))
    (and (not |changed: a clause speaks on deserved|) (not |changed: silence on deserved is a gap|))))
(define-fun |changed: deserved is settled| () Bool
  (and
    (or
      |changed: deserved may be nothing|
      |changed: deserved may be minor|
      |changed: deserved may be major|
      |changed: deserved may be disqualification|)
    (not
      (<=
        2
        (+
          (ite |changed: deserved may be nothing| 1 0)
          (ite |changed: deserved may be minor| 1 0)
          (ite |changed: deserved may be major| 1 0)
          (ite |changed: deserved may be disqualification| 1 0))))))
(define-fun |changed: 17.4 is met| () Bool
  (ite
    (= |the change that is made| 199)
    (and (= |category| 0) |changed: deserved is settled| |changed: deserved may be minor|)
    (ite
      (= |the change that is made| 198)
      (and (= |category| 0) (and |cautions_before is asked| (<= 0 |cautions_before| 0)))
      (ite
        (= |the change that is made| 197)
        (and
          |changed: deserved is settled|
          |changed: deserved may be minor|
          (and |cautions_before is asked| (<= 0 |cautions_before| 0)))
        (ite
          (= |the change that is made| 196)
          true
          (and
            (= |category| 0)
            |changed: deserved is settled|
            |changed: deserved may be minor|
            (and |cautions_before is asked| (<= 0 |cautions_before| 0))))))))
(define-fun |changed: 17.4 is in force| () Bool
  |changed: 17.4 is met|)
(define-fun |changed: 17.4 stands on penalty| () Bool
  |changed: 17.4 is in force|)
(define-fun |changed: 11.6 is met| () Bool
  (ite
    (= |the change that is made| 119)
    true
    (and |changed: deserved is settled| |changed: deserved may be disqualification|)))
(define-fun |changed: 11.6 is in force| () Bool
  |changed: 11.6 is met|)
(define-fun |changed: 11.6 stands on penalty| () Bool
  |changed: 11.6 is in force|)
(define-fun |changed: 11.5 is met| () Bool
  (ite
    (= |the change that is made| 118)
    (and |changed: deserved is settled| |changed: deserved may be major|)
    (ite
      (= |the change that is made| 117)
      (and |cautions_before is asked| (<= 1 |cautions_before| 2))
      (ite
        (= |the change that is made| 116)
        true
        (and
          |changed: deserved is settled|
          |changed: deserved may be major|
          (and |cautions_before is asked| (<= 1 |cautions_before| 2)))))))
(define-fun |changed: 11.5 is in force| () Bool
  |changed: 11.5 is met|)
(define-fun |changed: 11.5 stands on penalty| () Bool
  |changed: 11.5 is in force|)
(define-fun |changed: 11.4 is met| () Bool
  (ite
    (= |the change that is made| 115)
    (and |changed: deserved is settled| |changed: deserved may be major|)
    (ite
      (= |the change that is made| 114)
      (and |cautions_before is asked| (<= 0 |cautions_before| 0))
      (ite
        (= |the change that is made| 113)
        true
        (and
          |changed: deserved is settled|
          |changed: deserved may be major|
          (and |cautions_before is asked| (<= 0 |cautions_before| 0)))))))
(define-fun |changed: 11.4 is in force| () Bool
  |changed: 11.4 is met|)
(define-fun |changed: 11.4 stands on penalty| () Bool
  |changed: 11.4 is in force|)
(define-fun |changed: 11.3 is met| () Bool
  (ite
    (= |the change that is made| 112)
    (and |changed: deserved is settled| |changed: deserved may be minor|)
    (ite
      (= |the change that is made| 111)
      (and |cautions_before is asked| (<= 2 |cautions_before| 2))
      (ite
        (= |the change that is made| 110)
        true
        (and
          |changed: deserved is settled|
          |changed: deserved may be minor|
          (and |cautions_before is asked| (<= 2 |cautions_before| 2)))))))
(define-fun |changed: 11.3 is in force| () Bool
  |changed: 11.3 is met|)
(define-fun |changed: 11.3 stands on penalty| () Bool
  |changed: 11.3 is in force|)
(define-fun |changed: 11.2 is met| () Bool
  (ite
    (= |the change that is made| 109)
    (and |changed: deserved is settled| |changed: deserved may be minor|)
    (ite
      (= |the change that is made| 108)
      (and |cautions_before is asked| (<= 1 |cautions_before| 1))
      (ite
        (= |the change that is made| 107)
        true
        (and
          |changed: deserved is settled|
          |changed: deserved may be minor|
          (and |cautions_before is asked| (<= 1 |cautions_before| 1)))))))
(define-fun |changed: 11.2 is in force| () Bool
  |changed: 11.2 is met|)
(define-fun |changed: 11.2 stands on penalty| () Bool
  |changed: 11.2 is in force|)
(define-fun |changed: 11.1 is met| () Bool
  (ite
    (= |the change that is made| 106)
    (and |changed: deserved is settled| |changed: deserved may be minor|)
    (ite
      (= |the change that is made| 105)
      (and |cautions_before is asked| (<= 0 |cautions_before| 0))
      (ite
        (= |the change that is made| 104)
        true
        (and
          |changed: deserved is settled|
          |changed: deserved may be minor|
          (and |cautions_before is asked| (<= 0 |cautions_before| 0)))))))
(define-fun |changed: 11.1 is in force| () Bool
  |changed: 11.1 is met|)
(define-fun |changed: 11.1 stands on penalty| () Bool
  (and |changed: 11.1 is in force| (not |changed: 17.4 is in force|)))
(define-fun |changed: penalty may be disqualification| () Bool
  (and
    (or
      |changed: 11.3 stands on penalty|
      |changed: 11.5 stands on penalty|
      |changed: 11.6 stands on penalty|)
    (not
      (or
        |changed: 11.1 stands on penalty|
        |changed: 11.2 stands on penalty|
        |changed: 11.4 stands on penalty|
        |changed: 17.4 stands on penalty|))))
(define-fun |changed: penalty may be second_caution| () Bool
  (and
    (or |changed: 11.2 stands on penalty| |changed: 11.4 stands on penalty|)
    (not
      (or
        |changed: 11.1 stands on penalty|
        |changed: 11.3 stands on penalty|
        |changed: 11.5 stands on penalty|
        |changed: 11.6 stands on penalty|
        |changed: 17.4 stands on penalty|))))
(define-fun |changed: penalty may be caution| () Bool
  (and
    |changed: 11.1 stands on penalty|
    (not
      (or
        |changed: 11.2 stands on penalty|
        |changed: 11.3 stands on penalty|
        |changed: 11.4 stands on penalty|
        |changed: 11.5 stands on penalty|
        |changed: 11.6 stands on penalty|
        |changed: 17.4 stands on penalty|))))
(define-fun |changed: silence on penalty is a gap| () Bool
  (and
    |changed: deserved is settled|
    (or
      |changed: deserved may be minor|
      |changed: deserved may be major|
      |changed: deserved may be disqualification|)))
(define-fun |changed: a clause speaks on penalty| () Bool
  (or
    |changed: 11.1 is in force|
    |changed: 11.2 is in force|
    |changed: 11.3 is in force|
    |changed: 11.4 is in force|
    |changed: 11.5 is in force|
    |changed: 11.6 is in force|
    |changed: 17.4 is in force|))
(define-fun |changed: penalty may be none| () Bool
  (or
    (and
      |changed: 17.4 stands on penalty|
      (not
        (or
          |changed: 11.1 stands on penalty|
          |changed: 11.2 stands on penalty|
          |changed: 11.3 stands on penalty|
          |changed: 11.4 stands on penalty|
          |changed: 11.5 stands on penalty|
          |changed: 11.6 stands on penalty|)))
    (and (not |changed: a clause speaks on penalty|) (not |changed: silence on penalty is a gap|))))
(define-fun |changed: penalty is settled| () Bool
  (and
    (or
      |changed: penalty may be none|
      |changed: penalty may be caution|
      |changed: penalty may be second_caution|
      |changed: penalty may be disqualification|)
    (not
      (<=
        2
        (+
          (ite |changed: penalty may be none| 1 0)
          (ite |changed: penalty may be caution| 1 0)
          (ite |changed: penalty may be second_caution| 1 0)
          (ite |changed: penalty may be disqualification| 1 0))))))
(define-fun |changed: 11.7 is met| () Bool
  (ite
    (= |the change that is made| 120)
    true
    (and |changed: penalty is settled| |changed: penalty may be disqualification|)))
(define-fun |changed: 11.7 is in force| () Bool
  |changed: 11.7 is met|)
(define-fun |changed: a clause speaks on duties| () Bool
  (or
    |changed: 8.12 is in force|
    |changed: 11.7 is in force|
    |changed: 14.1 is in force|
    |changed: 14.2 is in force|
    |changed: 15.5 is in force|))
(define-fun |changed: duties is settled| () Bool
  |changed: a clause speaks on duties|)
(define-fun |changed: 15.5 stands on coach| () Bool
  |changed: 15.5 is in force|)
(define-fun |changed: 15.4 is met| () Bool
  (ite
    (= |the change that is made| 177)
    (and (= |matter| 5) (and |coach_act is asked| (or (= |coach_act| 1) (= |coach_act| 2))))
    (ite
      (= |the change that is made| 176)
      (and (= |matter| 5) (and |coach_warned is asked| |coach_warned|))
      (ite
        (= |the change that is made| 175)
        (= |matter| 5)
        (and
          (= |matter| 5)
          (and |coach_act is asked| (or (= |coach_act| 1) (= |coach_act| 2)))
          (and |coach_warned is asked| |coach_warned|))))))
(define-fun |changed: 15.4 is in force| () Bool
  |changed: 15.4 is met|)
(define-fun |changed: 15.4 stands on coach| () Bool
  |changed: 15.4 is in force|)
(define-fun |changed: 15.3 is met| () Bool
  (ite
    (= |the change that is made| 174)
    (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 2)))
    (ite
      (= |the change that is made| 173)
      (and (= |matter| 5) (and |coach_warned is asked| (not |coach_warned|)))
      (ite
        (= |the change that is made| 172)
        (= |matter| 5)
        (and
          (= |matter| 5)
          (and |coach_act is asked| (= |coach_act| 2))
          (and |coach_warned is asked| (not |coach_warned|)))))))
(define-fun |changed: 15.3 is in force| () Bool
  |changed: 15.3 is met|)
(define-fun |changed: 15.3 stands on coach| () Bool
  |changed: 15.3 is in force|)
(define-fun |changed: 15.2 is met| () Bool
  (ite
    (= |the change that is made| 171)
    (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 1)))
    (ite
      (= |the change that is made| 170)
      (and (= |matter| 5) (and |coach_warned is asked| (not |coach_warned|)))
      (ite
        (= |the change that is made| 169)
        (= |matter| 5)
        (and
          (= |matter| 5)
          (and |coach_act is asked| (= |coach_act| 1))
          (and |coach_warned is asked| (not |coach_warned|)))))))
(define-fun |changed: 15.2 is in force| () Bool
  |changed: 15.2 is met|)
(define-fun |changed: 15.2 stands on coach| () Bool
  |changed: 15.2 is in force|)
(define-fun |changed: 15.1 is met| () Bool
  (ite
    (= |the change that is made| 168)
    (= |matter| 5)
    (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 0)))))
(define-fun |changed: 15.1 is in force| () Bool
  |changed: 15.1 is met|)
(define-fun |changed: 15.1 stands on coach| () Bool
  |changed: 15.1 is in force|)
(define-fun |changed: coach may be sent_away| () Bool
  (and
    (or |changed: 15.4 stands on coach| |changed: 15.5 stands on coach|)
    (not
      (or
        |changed: 15.1 stands on coach|
        |changed: 15.2 stands on coach|
        |changed: 15.3 stands on coach|))))
(define-fun |changed: coach may be warned| () Bool
  (and
    (or |changed: 15.2 stands on coach| |changed: 15.3 stands on coach|)
    (not
      (or
        |changed: 15.1 stands on coach|
        |changed: 15.4 stands on coach|
        |changed: 15.5 stands on coach|))))
(define-fun |changed: coach may be stays| () Bool
  (and
    (or |changed: 15.1 stands on coach| |changed: 15.3 stands on coach|)
    (not
      (or
        |changed: 15.2 stands on coach|
        |changed: 15.4 stands on coach|
        |changed: 15.5 stands on coach|))))
(define-fun |changed: coach is settled| () Bool
  (and
    (or
      |changed: coach may be stays|
      |changed: coach may be warned|
      |changed: coach may be sent_away|)
    (not
      (<=
        2
        (+
          (ite |changed: coach may be stays| 1 0)
          (ite |changed: coach may be warned| 1 0)
          (ite |changed: coach may be sent_away| 1 0))))))
(define-fun |changed: 14.7 is met| () Bool
  (ite
    (= |the change that is made| 167)
    (and (= |matter| 4) (and |physician is asked| (= |physician| 1)))
    (ite
      (= |the change that is made| 166)
      (and (= |matter| 4) (and |caused_by is asked| (= |caused_by| 1)))
      (ite
        (= |the change that is made| 165)
        (= |matter| 4)
        (and
          (= |matter| 4)
          (and |physician is asked| (= |physician| 1))
          (and |caused_by is asked| (= |caused_by| 1)))))))
(define-fun |changed: 14.7 is in force| () Bool
  |changed: 14.7 is met|)
(define-fun |changed: 14.7 stands on result| () Bool
  |changed: 14.7 is in force|)
(define-fun |changed: 14.6 is met| () Bool
  (ite
    (= |the change that is made| 164)
    (and (= |matter| 4) (and |physician is asked| (= |physician| 1)))
    (ite
      (= |the change that is made| 163)
      (and (= |matter| 4) (and |caused_by is asked| (= |caused_by| 0)))
      (ite
        (= |the change that is made| 162)
        (= |matter| 4)
        (and
          (= |matter| 4)
          (and |physician is asked| (= |physician| 1))
          (and |caused_by is asked| (= |caused_by| 0)))))))
(define-fun |changed: 14.6 is in force| () Bool
  |changed: 14.6 is met|)
(define-fun |changed: 14.6 stands on result| () Bool
  |changed: 14.6 is in force|)
(define-fun |changed: 14.5 is met| () Bool
  (ite
    (= |the change that is made| 161)
    (and (= |matter| 4) (and |injury is asked| (= |injury| 2)))
    (ite
      (= |the change that is made| 160)
      (and (= |matter| 4) (and |physician is asked| (= |physician| 0)))
      (ite
        (= |the change that is made| 159)
        (= |matter| 4)
        (and
          (= |matter| 4)
          (and |injury is asked| (= |injury| 2))
          (and |physician is asked| (= |physician| 0)))))))
(define-fun |changed: 14.5 is in force| () Bool
  |changed: 14.5 is met|)
(define-fun |changed: 14.5 stands on result| () Bool
  |changed: 14.5 is in force|)
(define-fun |changed: 14.4 is met| () Bool
  (ite
    (= |the change that is made| 158)
    (and
      (= |matter| 4)
      (and |injury is asked| (= |injury| 0))
      (and |physician is asked| (= |physician| 1)))
    (ite
      (= |the change that is made| 157)
      (and
        (= |matter| 4)
        (and |injury is asked| (= |injury| 0))
        (and |times_treated is asked| (<= 2 |times_treated| 3)))
      (ite
        (= |the change that is made| 156)
        (and (= |matter| 4) (and |injury is asked| (= |injury| 0)))
        (ite
          (= |the change that is made| 155)
          (and
            (= |matter| 4)
            (or
              (and |physician is asked| (= |physician| 1))
              (and |times_treated is asked| (<= 2 |times_treated| 3))))
          (ite
            (= |the change that is made| 154)
            (= |matter| 4)
            (and
              (= |matter| 4)
              (and |injury is asked| (= |injury| 0))
              (or
                (and |physician is asked| (= |physician| 1))
                (and |times_treated is asked| (<= 2 |times_treated| 3))))))))))
(define-fun |changed: 14.4 is in force| () Bool
  |changed: 14.4 is met|)
(define-fun |changed: 14.4 stands on result| () Bool
  |changed: 14.4 is in force|)
(define-fun |changed: 14.3 is met| () Bool
  (ite
    (= |the change that is made| 153)
    (and (= |matter| 4) (and |physician is asked| (= |physician| 0)))
    (ite
      (= |the change that is made| 152)
      (and (= |matter| 4) (and |times_treated is asked| (<= 0 |times_treated| 1)))
      (ite
        (= |the change that is made| 151)
        (= |matter| 4)
        (and
          (= |matter| 4)
          (and |physician is asked| (= |physician| 0))
          (and |times_treated is asked| (<= 0 |times_treated| 1)))))))
(define-fun |changed: 14.3 is in force| () Bool
  |changed: 14.3 is met|)
(define-fun |changed: 14.3 stands on result| () Bool
  |changed: 14.3 is in force|)
(define-fun |changed: 14.2 stands on result| () Bool
  |changed: 14.2 is in force|)
(define-fun |changed: 11.7 stands on result| () Bool
  |changed: 11.7 is in force|)
(define-fun |changed: 16.1 is met| () Bool
  (ite (= |the change that is made| 180) true (and |after_call is asked| |after_call|)))
(define-fun |changed: 16.1 is in force| () Bool
  |changed: 16.1 is met|)
(define-fun |changed: 10.1 is met| () Bool
  (ite (= |the change that is made| 91) true (and |submission is asked| |submission|)))
(define-fun |changed: 10.1 is in force| () Bool
  (and |changed: 10.1 is met| (not |changed: 16.1 is in force|)))
(define-fun |changed: 10.1 stands on worth| () Bool
  |changed: 10.1 is in force|)
(define-fun |changed: 9.1 is met| () Bool
  (ite
    (= |the change that is made| 87)
    (and |action is asked| (= |action| 4))
    (and
      (and |action is asked| (= |action| 4))
      (or
        (and (= |category| 0) (and |seconds_held is asked| (<= 15 |seconds_held| 20)))
        (and (= |category| 1) (and |seconds_held is asked| (<= 20 |seconds_held| 20)))
        (and (= |category| 2) (and |seconds_held is asked| (<= 20 |seconds_held| 20)))))))
(define-fun |changed: 9.1 is in force| () Bool
  |changed: 9.1 is met|)
(define-fun |changed: 9.1 stands on worth| () Bool
  |changed: 9.1 is in force|)
(define-fun |changed: 3.1 is met| () Bool
  (ite
    (= |the change that is made| 15)
    (and
      (and |action is asked| (= |action| 1))
      |from_standing is true|
      (and |landing is asked| (= |landing| 3)))
    (ite
      (= |the change that is made| 14)
      (and
        (and |action is asked| (= |action| 1))
        |from_standing is true|
        (and |control is asked| (= |control| 2)))
      (ite
        (= |the change that is made| 13)
        (and
          (and |action is asked| (= |action| 1))
          (and |landing is asked| (= |landing| 3))
          (and |control is asked| (= |control| 2)))
        (ite
          (= |the change that is made| 12)
          (and |action is asked| (= |action| 1))
          (and
            (and |action is asked| (= |action| 1))
            |from_standing is true|
            (and |landing is asked| (= |landing| 3))
            (and |control is asked| (= |control| 2))))))))
(define-fun |changed: 3.1 is in force| () Bool
  |changed: 3.1 is met|)
(define-fun |changed: 3.1 stands on worth| () Bool
  |changed: 3.1 is in force|)
(define-fun |changed: worth may be full| () Bool
  (or |changed: 3.1 stands on worth| |changed: 9.1 stands on worth| |changed: 10.1 stands on worth|))
(define-fun |changed: 9.2 is met| () Bool
  (ite
    (= |the change that is made| 90)
    (and
      (and |action is asked| (= |action| 4))
      (or
        (and (= |category| 0) (and |seconds_held is asked| (<= 8 |seconds_held| 20)))
        (and (= |category| 1) (and |seconds_held is asked| (<= 10 |seconds_held| 20)))
        (and (= |category| 2) (and |seconds_held is asked| (<= 10 |seconds_held| 20)))))
    (ite
      (= |the change that is made| 89)
      (and
        (and |action is asked| (= |action| 4))
        (or
          (and (= |category| 0) (and |seconds_held is asked| (<= 0 |seconds_held| 14)))
          (and (= |category| 1) (and |seconds_held is asked| (<= 0 |seconds_held| 19)))
          (and (= |category| 2) (and |seconds_held is asked| (<= 0 |seconds_held| 19)))))
      (ite
        (= |the change that is made| 88)
        (and |action is asked| (= |action| 4))
        (and
          (and |action is asked| (= |action| 4))
          (or
            (and (= |category| 0) (and |seconds_held is asked| (<= 8 |seconds_held| 20)))
            (and (= |category| 1) (and |seconds_held is asked| (<= 10 |seconds_held| 20)))
            (and (= |category| 2) (and |seconds_held is asked| (<= 10 |seconds_held| 20))))
          (or
            (and (= |category| 0) (and |seconds_held is asked| (<= 0 |seconds_held| 14)))
            (and (= |category| 1) (and |seconds_held is asked| (<= 0 |seconds_held| 19)))
            (and (= |category| 2) (and |seconds_held is asked| (<= 0 |seconds_held| 19)))))))))
(define-fun |changed: 9.2 is in force| () Bool
  |changed: 9.2 is met|)
(define-fun |changed: 9.2 stands on worth| () Bool
  |changed: 9.2 is in force|)
(define-fun |changed: 3.4 is met| () Bool
  (ite
    (= |the change that is made| 27)
    (and
      (and |action is asked| (= |action| 1))
      (and |phase is asked| (= |phase| 3))
      (and |landing is asked| (= |landing| 3)))
    (ite
      (= |the change that is made| 26)
      (and
        (and |action is asked| (= |action| 1))
        (and |phase is asked| (= |phase| 3))
        (and |control is asked| (= |control| 2)))
      (ite
        (= |the change that is made| 25)
        (and
          (and |action is asked| (= |action| 1))
          (and |landing is asked| (= |landing| 3))
          (and |control is asked| (= |control| 2)))
        (ite
          (= |the change that is made| 24)
          (and |action is asked| (= |action| 1))
          (and
            (and |action is asked| (= |action| 1))
            (and |phase is asked| (= |phase| 3))
            (and |landing is asked| (= |landing| 3))
            (and |control is asked| (= |control| 2))))))))
(define-fun |changed: 3.4 is in force| () Bool
  |changed: 3.4 is met|)
(define-fun |changed: 3.4 stands on worth| () Bool
  |changed: 3.4 is in force|)
(define-fun |changed: 3.3 is met| () Bool
  (ite
    (= |the change that is made| 23)
    (and
      (and |action is asked| (= |action| 1))
      |from_standing is true|
      (and |landing is asked| (or (= |landing| 1) (= |landing| 2))))
    (ite
      (= |the change that is made| 22)
      (and
        (and |action is asked| (= |action| 1))
        |from_standing is true|
        (and |control is asked| (or (= |control| 1) (= |control| 2))))
      (ite
        (= |the change that is made| 21)
        (and
          (and |action is asked| (= |action| 1))
          (and |landing is asked| (or (= |landing| 1) (= |landing| 2)))
          (and |control is asked| (or (= |control| 1) (= |control| 2))))
        (ite
          (= |the change that is made| 20)
          (and |action is asked| (= |action| 1))
          (and
            (and |action is asked| (= |action| 1))
            |from_standing is true|
            (and |landing is asked| (or (= |landing| 1) (= |landing| 2)))
            (and |control is asked| (or (= |control| 1) (= |control| 2)))))))))
(define-fun |changed: 3.3 is in force| () Bool
  |changed: 3.3 is met|)
(define-fun |changed: 3.3 stands on worth| () Bool
  |changed: 3.3 is in force|)
(define-fun |changed: 3.2 is met| () Bool
  (ite
    (= |the change that is made| 19)
    (and
      (and |action is asked| (= |action| 1))
      |from_standing is true|
      (and |landing is asked| (= |landing| 3)))
    (ite
      (= |the change that is made| 18)
      (and
        (and |action is asked| (= |action| 1))
        |from_standing is true|
        (and |control is asked| (= |control| 1)))
      (ite
        (= |the change that is made| 17)
        (and
          (and |action is asked| (= |action| 1))
          (and |landing is asked| (= |landing| 3))
          (and |control is asked| (= |control| 1)))
        (ite
          (= |the change that is made| 16)
          (and |action is asked| (= |action| 1))
          (and
            (and |action is asked| (= |action| 1))
            |from_standing is true|
            (and |landing is asked| (= |landing| 3))
            (and |control is asked| (= |control| 1))))))))
(define-fun |changed: 3.2 is in force| () Bool
  |changed: 3.2 is met|)
(define-fun |changed: 3.2 stands on worth| () Bool
  |changed: 3.2 is in force|)
(define-fun |changed: worth may be half| () Bool
  (and
    (or
      |changed: 3.2 stands on worth|
      |changed: 3.3 stands on worth|
      |changed: 3.4 stands on worth|
      |changed: 9.2 stands on worth|)
    (not
      (or
        |changed: 3.1 stands on worth|
        |changed: 9.1 stands on worth|
        |changed: 10.1 stands on worth|))))
(define-fun |changed: silence on worth is a gap| () Bool
  false)
(define-fun |changed: a clause speaks on worth| () Bool
  (or
    |changed: 3.1 is in force|
    |changed: 3.2 is in force|
    |changed: 3.3 is in force|
    |changed: 3.4 is in force|
    |changed: 9.1 is in force|
    |changed: 9.2 is in force|
    |changed: 10.1 is in force|))
(define-fun |changed: worth may be nothing| () Bool
  (and (not |changed: a clause speaks on worth|) (not |changed: silence on worth is a gap|)))
(define-fun |changed: worth is settled| () Bool
  (and
    (or |changed: worth may be nothing| |changed: worth may be half| |changed: worth may be full|)
    (not
      (<=
        2
        (+
          (ite |changed: worth may be nothing| 1 0)
          (ite |changed: worth may be half| 1 0)
          (ite |changed: worth may be full| 1 0))))))
(define-fun |changed: 10.4 is met| () Bool
  (ite
    (= |the change that is made| 102)
    (and |changed: worth is settled| |changed: worth may be half|)
    (ite
      (= |the change that is made| 101)
      (and |changed: deserved is settled| |changed: deserved may be nothing|)
      (ite
        (= |the change that is made| 100)
        true
        (and
          |changed: worth is settled|
          |changed: worth may be half|
          |changed: deserved is settled|
          |changed: deserved may be nothing|)))))
(define-fun |changed: 10.4 is in force| () Bool
  (and |changed: 10.4 is met| (not |changed: 16.1 is in force|)))
(define-fun |changed: 10.4 stands on score| () Bool
  |changed: 10.4 is in force|)
(define-fun |changed: 10.3 is met| () Bool
  (ite
    (= |the change that is made| 99)
    (and
      |changed: worth is settled|
      |changed: worth may be full|
      |changed: deserved is settled|
      |changed: deserved may be nothing|)
    (ite
      (= |the change that is made| 98)
      (and
        |changed: worth is settled|
        |changed: worth may be full|
        (and |video is asked| (= |video| 1)))
      (ite
        (= |the change that is made| 97)
        (and
          |changed: deserved is settled|
          |changed: deserved may be nothing|
          (and |video is asked| (= |video| 1)))
        (ite
          (= |the change that is made| 96)
          true
          (and
            |changed: worth is settled|
            |changed: worth may be full|
            |changed: deserved is settled|
            |changed: deserved may be nothing|
            (and |video is asked| (= |video| 1))))))))
(define-fun |changed: 10.3 is in force| () Bool
  (and |changed: 10.3 is met| (not |changed: 16.1 is in force|)))
(define-fun |changed: 10.3 stands on score| () Bool
  |changed: 10.3 is in force|)
(define-fun |changed: 10.2 is met| () Bool
  (ite
    (= |the change that is made| 95)
    (and
      |changed: worth is settled|
      |changed: worth may be full|
      |changed: deserved is settled|
      |changed: deserved may be nothing|)
    (ite
      (= |the change that is made| 94)
      (and
        |changed: worth is settled|
        |changed: worth may be full|
        (and |video is asked| (= |video| 0)))
      (ite
        (= |the change that is made| 93)
        (and
          |changed: deserved is settled|
          |changed: deserved may be nothing|
          (and |video is asked| (= |video| 0)))
        (ite
          (= |the change that is made| 92)
          true
          (and
            |changed: worth is settled|
            |changed: worth may be full|
            |changed: deserved is settled|
            |changed: deserved may be nothing|
            (and |video is asked| (= |video| 0))))))))
(define-fun |changed: 10.2 is in force| () Bool
  (and |changed: 10.2 is met| (not |changed: 16.1 is in force|)))
(define-fun |changed: 10.2 stands on score| () Bool
  |changed: 10.2 is in force|)
(define-fun |changed: score may be full| () Bool
  (and
    |changed: 10.2 stands on score|
    (not (or |changed: 10.3 stands on score| |changed: 10.4 stands on score|))))
(define-fun |changed: score may be half| () Bool
  (and
    (or |changed: 10.3 stands on score| |changed: 10.4 stands on score|)
    (not |changed: 10.2 stands on score|)))
(define-fun |changed: silence on score is a gap| () Bool
  false)
(define-fun |changed: a clause speaks on score| () Bool
  (or |changed: 10.2 is in force| |changed: 10.3 is in force| |changed: 10.4 is in force|))
(define-fun |changed: score may be none| () Bool
  (and (not |changed: a clause speaks on score|) (not |changed: silence on score is a gap|)))
(define-fun |changed: score is settled| () Bool
  (and
    (or |changed: score may be none| |changed: score may be half| |changed: score may be full|)
    (not
      (<=
        2
        (+
          (ite |changed: score may be none| 1 0)
          (ite |changed: score may be half| 1 0)
          (ite |changed: score may be full| 1 0))))))
(define-fun |changed: 10.5 is met| () Bool
  (ite
    (= |the change that is made| 103)
    true
    (and |changed: score is settled| |changed: score may be full|)))
(define-fun |changed: 10.5 is in force| () Bool
  (and |changed: 10.5 is met| (not |changed: 16.1 is in force|)))
(define-fun |changed: 10.5 stands on result| () Bool
  |changed: 10.5 is in force|)
(define-fun |changed: result may be lost| () Bool
  (and
    (or
      |changed: 11.7 stands on result|
      |changed: 14.2 stands on result|
      |changed: 14.4 stands on result|
      |changed: 14.7 stands on result|)
    (not
      (or
        |changed: 10.5 stands on result|
        |changed: 14.3 stands on result|
        |changed: 14.5 stands on result|
        |changed: 14.6 stands on result|))))
(define-fun |changed: result may be won| () Bool
  (and
    (or |changed: 10.5 stands on result| |changed: 14.6 stands on result|)
    (not
      (or
        |changed: 11.7 stands on result|
        |changed: 14.2 stands on result|
        |changed: 14.3 stands on result|
        |changed: 14.4 stands on result|
        |changed: 14.5 stands on result|
        |changed: 14.7 stands on result|))))
(define-fun |changed: silence on result is a gap| () Bool
  (= |matter| 4))
(define-fun |changed: a clause speaks on result| () Bool
  (or
    |changed: 10.5 is in force|
    |changed: 11.7 is in force|
    |changed: 14.2 is in force|
    |changed: 14.3 is in force|
    |changed: 14.4 is in force|
    |changed: 14.5 is in force|
    |changed: 14.6 is in force|
    |changed: 14.7 is in force|))
(define-fun |changed: result may be open| () Bool
  (or
    (and
      (or |changed: 14.3 stands on result| |changed: 14.5 stands on result|)
      (not
        (or
          |changed: 10.5 stands on result|
          |changed: 11.7 stands on result|
          |changed: 14.2 stands on result|
          |changed: 14.4 stands on result|
          |changed: 14.6 stands on result|
          |changed: 14.7 stands on result|)))
    (and (not |changed: a clause speaks on result|) (not |changed: silence on result is a gap|))))
(define-fun |changed: result is settled| () Bool
  (and
    (or |changed: result may be open| |changed: result may be won| |changed: result may be lost|)
    (not
      (<=
        2
        (+
          (ite |changed: result may be open| 1 0)
          (ite |changed: result may be won| 1 0)
          (ite |changed: result may be lost| 1 0))))))
(define-fun |changed: 16.3 is met| () Bool
  (ite
    (= |the change that is made| 186)
    (and |changed: deserved is settled| |changed: deserved may be nothing| (= |matter| 1))
    (ite
      (= |the change that is made| 185)
      (and
        |changed: deserved is settled|
        |changed: deserved may be nothing|
        (and |action is asked| (= |action| 5)))
      (ite
        (= |the change that is made| 184)
        (and |changed: deserved is settled| |changed: deserved may be nothing|)
        (ite
          (= |the change that is made| 183)
          (or (= |matter| 1) (and |action is asked| (= |action| 5)))
          (ite
            (= |the change that is made| 182)
            true
            (and
              |changed: deserved is settled|
              |changed: deserved may be nothing|
              (or (= |matter| 1) (and |action is asked| (= |action| 5))))))))))
(define-fun |changed: 16.3 is in force| () Bool
  |changed: 16.3 is met|)
(define-fun |changed: 7.4 is met| () Bool
  (ite
    (= |the change that is made| 56)
    (and |action is asked| (= |action| 5))
    (and
      (and |action is asked| (= |action| 5))
      (and |phase is asked| (or (= |phase| 2) (= |phase| 3))))))
(define-fun |changed: 7.4 is in force| () Bool
  |changed: 7.4 is met|)
(define-fun |changed: 16.3 stands on play| () Bool
  (and
    |changed: 16.3 is in force|
    (not |changed: 7.4 is in force|)
    (not |changed: 16.1 is in force|)))
(define-fun |changed: 16.2 is met| () Bool
  (ite
    (= |the change that is made| 181)
    true
    (and
      |changed: deserved is settled|
      (or
        |changed: deserved may be minor|
        |changed: deserved may be major|
        |changed: deserved may be disqualification|))))
(define-fun |changed: 16.2 is in force| () Bool
  |changed: 16.2 is met|)
(define-fun |changed: 16.2 stands on play| () Bool
  |changed: 16.2 is in force|)
(define-fun |changed: 16.1 stands on play| () Bool
  |changed: 16.1 is in force|)
(define-fun |changed: 15.6 is met| () Bool
  (ite
    (= |the change that is made| 179)
    (= |matter| 5)
    (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 4)))))
(define-fun |changed: 15.6 is in force| () Bool
  |changed: 15.6 is met|)
(define-fun |changed: 15.6 stands on play| () Bool
  |changed: 15.6 is in force|)
(define-fun |changed: 14.1 stands on play| () Bool
  |changed: 14.1 is in force|)
(define-fun |changed: 13.4 is met| () Bool
  (ite
    (= |the change that is made| 146)
    (and
      (= |matter| 3)
      (and |dress_seen is asked| (= |dress_seen| 1))
      (or
        (and
          (and |dress_faults is asked| |dress_faults includes belt|)
          (and
            |dress_faults is asked|
            (not
              (or
                |dress_faults includes jacket|
                |dress_faults includes metal|
                |dress_faults includes nails|
                |dress_faults includes padding|))))
        (and
          (and |dress_faults is asked| |dress_faults includes jacket|)
          (and
            |dress_faults is asked|
            (not
              (or
                |dress_faults includes belt|
                |dress_faults includes metal|
                |dress_faults includes nails|
                |dress_faults includes padding|))))))
    (ite
      (= |the change that is made| 145)
      (and
        (= |matter| 3)
        (and |dress_seen is asked| (= |dress_seen| 1))
        (or
          (and
            (and |dress_faults is asked| |dress_faults includes belt|)
            (and
              |dress_faults is asked|
              (not
                (or
                  |dress_faults includes jacket|
                  |dress_faults includes metal|
                  |dress_faults includes nails|
                  |dress_faults includes padding|))))
          (and
            (and
              |dress_faults is asked|
              (and |dress_faults includes belt| |dress_faults includes jacket|))
            (and
              |dress_faults is asked|
              (not
                (or
                  |dress_faults includes metal|
                  |dress_faults includes nails|
                  |dress_faults includes padding|))))))
      (ite
        (= |the change that is made| 144)
        (and
          (= |matter| 3)
          (and |dress_seen is asked| (= |dress_seen| 1))
          (or
            (and
              (and |dress_faults is asked| |dress_faults includes jacket|)
              (and
                |dress_faults is asked|
                (not
                  (or
                    |dress_faults includes belt|
                    |dress_faults includes metal|
                    |dress_faults includes nails|
                    |dress_faults includes padding|))))
            (and
              (and
                |dress_faults is asked|
                (and |dress_faults includes belt| |dress_faults includes jacket|))
              (and
                |dress_faults is asked|
                (not
                  (or
                    |dress_faults includes metal|
                    |dress_faults includes nails|
                    |dress_faults includes padding|))))))
        (ite
          (= |the change that is made| 143)
          (and (= |matter| 3) (and |dress_seen is asked| (= |dress_seen| 1)))
          (ite
            (= |the change that is made| 142)
            (and
              (= |matter| 3)
              (or
                (and
                  (and |dress_faults is asked| |dress_faults includes belt|)
                  (and
                    |dress_faults is asked|
                    (not
                      (or
                        |dress_faults includes jacket|
                        |dress_faults includes metal|
                        |dress_faults includes nails|
                        |dress_faults includes padding|))))
                (and
                  (and |dress_faults is asked| |dress_faults includes jacket|)
                  (and
                    |dress_faults is asked|
                    (not
                      (or
                        |dress_faults includes belt|
                        |dress_faults includes metal|
                        |dress_faults includes nails|
                        |dress_faults includes padding|))))
                (and
                  (and
                    |dress_faults is asked|
                    (and |dress_faults includes belt| |dress_faults includes jacket|))
                  (and
                    |dress_faults is asked|
                    (not
                      (or
                        |dress_faults includes metal|
                        |dress_faults includes nails|
                        |dress_faults includes padding|))))))
            (ite
              (= |the change that is made| 141)
              (= |matter| 3)
              (and
                (= |matter| 3)
                (and |dress_seen is asked| (= |dress_seen| 1))
                (or
                  (and
                    (and |dress_faults is asked| |dress_faults includes belt|)
                    (and
                      |dress_faults is asked|
                      (not
                        (or
                          |dress_faults includes jacket|
                          |dress_faults includes metal|
                          |dress_faults includes nails|
                          |dress_faults includes padding|))))
                  (and
                    (and |dress_faults is asked| |dress_faults includes jacket|)
                    (and
                      |dress_faults is asked|
                      (not
                        (or
                          |dress_faults includes belt|
                          |dress_faults includes metal|
                          |dress_faults includes nails|
                          |dress_faults includes padding|))))
                  (and
                    (and
                      |dress_faults is asked|
                      (and |dress_faults includes belt| |dress_faults includes jacket|))
                    (and
                      |dress_faults is asked|
                      (not
                        (or
                          |dress_faults includes metal|
                          |dress_faults includes nails|
                          |dress_faults includes padding|)))))))))))))
(define-fun |changed: 13.4 is in force| () Bool
  |changed: 13.4 is met|)
(define-fun |changed: 13.4 stands on play| () Bool
  |changed: 13.4 is in force|)
(define-fun |changed: 12.5 is met| () Bool
  (ite
    (= |the change that is made| 133)
    (and (= |matter| 2) (and |left_by is asked| (= |left_by| 2)))
    (ite
      (= |the change that is made| 132)
      (and
        (= |matter| 2)
        (and
          |still_inside is asked|
          (or |still_inside includes attacker| |still_inside includes defender|)))
      (ite
        (= |the change that is made| 131)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |left_by is asked| (= |left_by| 2))
          (and
            |still_inside is asked|
            (or |still_inside includes attacker| |still_inside includes defender|)))))))
(define-fun |changed: 12.5 is in force| () Bool
  |changed: 12.5 is met|)
(define-fun |changed: 12.5 stands on play| () Bool
  |changed: 12.5 is in force|)
(define-fun |changed: 12.4 is met| () Bool
  (ite
    (= |the change that is made| 130)
    (= |matter| 2)
    (and
      (= |matter| 2)
      (and
        |still_inside is asked|
        (not (or |still_inside includes attacker| |still_inside includes defender|))))))
(define-fun |changed: 12.4 is in force| () Bool
  |changed: 12.4 is met|)
(define-fun |changed: 12.4 stands on play| () Bool
  |changed: 12.4 is in force|)
(define-fun |changed: 12.3 is met| () Bool
  (ite
    (= |the change that is made| 129)
    (and (= |matter| 2) (and |phase is asked| (not (= |phase| 0))))
    (ite
      (= |the change that is made| 128)
      (and
        (= |matter| 2)
        (and
          |still_inside is asked|
          (not (not (or |still_inside includes attacker| |still_inside includes defender|)))))
      (ite
        (= |the change that is made| 127)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |phase is asked| (not (= |phase| 0)))
          (and
            |still_inside is asked|
            (not (not (or |still_inside includes attacker| |still_inside includes defender|)))))))))
(define-fun |changed: 12.3 is in force| () Bool
  |changed: 12.3 is met|)
(define-fun |changed: 12.3 stands on play| () Bool
  |changed: 12.3 is in force|)
(define-fun |changed: 10.2 stands on play| () Bool
  |changed: 10.2 is in force|)
(define-fun |changed: 9.1 stands on play| () Bool
  |changed: 9.1 is in force|)
(define-fun |changed: 7.4 stands on play| () Bool
  |changed: 7.4 is in force|)
(define-fun |changed: 4.5 is met| () Bool
  (ite
    (= |the change that is made| 38)
    (and (and |action is asked| (= |action| 2)) (and |phase is asked| (= |phase| 0)))
    (ite
      (= |the change that is made| 37)
      (and (and |action is asked| (= |action| 2)) (and |submission is asked| (not |submission|)))
      (ite
        (= |the change that is made| 36)
        (and |action is asked| (= |action| 2))
        (and
          (and |action is asked| (= |action| 2))
          (and |phase is asked| (= |phase| 0))
          (and |submission is asked| (not |submission|)))))))
(define-fun |changed: 4.5 is in force| () Bool
  |changed: 4.5 is met|)
(define-fun |changed: 4.5 stands on play| () Bool
  |changed: 4.5 is in force|)
(define-fun |changed: play may be stops| () Bool
  (and
    (or
      |changed: 4.5 stands on play|
      |changed: 7.4 stands on play|
      |changed: 9.1 stands on play|
      |changed: 10.2 stands on play|
      |changed: 12.4 stands on play|
      |changed: 13.4 stands on play|
      |changed: 14.1 stands on play|
      |changed: 15.6 stands on play|
      |changed: 16.1 stands on play|
      |changed: 16.2 stands on play|)
    (not
      (or
        |changed: 12.3 stands on play|
        |changed: 12.5 stands on play|
        |changed: 16.3 stands on play|))))
(define-fun |changed: silence on play is a gap| () Bool
  (or (or (= |matter| 1) (= |matter| 2)) (and |action is asked| (= |action| 5))))
(define-fun |changed: a clause speaks on play| () Bool
  (or
    |changed: 4.5 is in force|
    |changed: 7.4 is in force|
    |changed: 9.1 is in force|
    |changed: 10.2 is in force|
    |changed: 12.3 is in force|
    |changed: 12.4 is in force|
    |changed: 12.5 is in force|
    |changed: 13.4 is in force|
    |changed: 14.1 is in force|
    |changed: 15.6 is in force|
    |changed: 16.1 is in force|
    |changed: 16.2 is in force|
    |changed: 16.3 is in force|))
(define-fun |changed: play may be continues| () Bool
  (or
    (and
      (or
        |changed: 12.3 stands on play|
        |changed: 12.5 stands on play|
        |changed: 13.4 stands on play|
        |changed: 16.3 stands on play|)
      (not
        (or
          |changed: 4.5 stands on play|
          |changed: 7.4 stands on play|
          |changed: 9.1 stands on play|
          |changed: 10.2 stands on play|
          |changed: 12.4 stands on play|
          |changed: 14.1 stands on play|
          |changed: 15.6 stands on play|
          |changed: 16.1 stands on play|
          |changed: 16.2 stands on play|)))
    (and (not |changed: a clause speaks on play|) (not |changed: silence on play is a gap|))))
(define-fun |changed: play is settled| () Bool
  (and
    (or |changed: play may be continues| |changed: play may be stops|)
    (not (and |changed: play may be continues| |changed: play may be stops|))))
(define-fun |changed: 13.3 is met| () Bool
  (ite
    (= |the change that is made| 140)
    (= |matter| 3)
    (and
      (= |matter| 3)
      (and
        |dress_faults is asked|
        (<=
          3
          (+
            (ite |dress_faults includes belt| 1 0)
            (ite |dress_faults includes jacket| 1 0)
            (ite |dress_faults includes metal| 1 0)
            (ite |dress_faults includes nails| 1 0)
            (ite |dress_faults includes padding| 1 0)))))))
(define-fun |changed: 13.3 is in force| () Bool
  |changed: 13.3 is met|)
(define-fun |changed: 13.3 stands on admission| () Bool
  |changed: 13.3 is in force|)
(define-fun |changed: 13.2 is met| () Bool
  (ite
    (= |the change that is made| 139)
    (and
      (= |matter| 3)
      (and
        |dress_faults is asked|
        (not
          (not
            (or
              |dress_faults includes belt|
              |dress_faults includes jacket|
              |dress_faults includes metal|
              |dress_faults includes nails|
              |dress_faults includes padding|)))))
    (ite
      (= |the change that is made| 138)
      (and (= |matter| 3) (and |sleeve_gap is asked| (<= 0 |sleeve_gap| 19)))
      (ite
        (= |the change that is made| 137)
        (= |matter| 3)
        (and
          (= |matter| 3)
          (or
            (and
              |dress_faults is asked|
              (not
                (not
                  (or
                    |dress_faults includes belt|
                    |dress_faults includes jacket|
                    |dress_faults includes metal|
                    |dress_faults includes nails|
                    |dress_faults includes padding|))))
            (and |sleeve_gap is asked| (<= 0 |sleeve_gap| 19))))))))
(define-fun |changed: 13.2 is in force| () Bool
  |changed: 13.2 is met|)
(define-fun |changed: 13.2 stands on admission| () Bool
  (and |changed: 13.2 is in force| (not |changed: 13.3 is in force|)))
(define-fun |changed: 13.1 is met| () Bool
  (ite
    (= |the change that is made| 136)
    (and
      (= |matter| 3)
      (not
        (and
          |dress_faults is asked|
          (not
            (not
              (or
                |dress_faults includes belt|
                |dress_faults includes jacket|
                |dress_faults includes metal|
                |dress_faults includes nails|
                |dress_faults includes padding|))))))
    (ite
      (= |the change that is made| 135)
      (and (= |matter| 3) (not (and |sleeve_gap is asked| (<= 0 |sleeve_gap| 19))))
      (ite
        (= |the change that is made| 134)
        (= |matter| 3)
        (and
          (= |matter| 3)
          (not
            (and
              |dress_faults is asked|
              (not
                (not
                  (or
                    |dress_faults includes belt|
                    |dress_faults includes jacket|
                    |dress_faults includes metal|
                    |dress_faults includes nails|
                    |dress_faults includes padding|)))))
          (not (and |sleeve_gap is asked| (<= 0 |sleeve_gap| 19))))))))
(define-fun |changed: 13.1 is in force| () Bool
  |changed: 13.1 is met|)
(define-fun |changed: 13.1 stands on admission| () Bool
  |changed: 13.1 is in force|)
(define-fun |changed: admission may be refused| () Bool
  (and
    |changed: 13.3 stands on admission|
    (not (or |changed: 13.1 stands on admission| |changed: 13.2 stands on admission|))))
(define-fun |changed: admission may be after_mending| () Bool
  (and
    |changed: 13.2 stands on admission|
    (not (or |changed: 13.1 stands on admission| |changed: 13.3 stands on admission|))))
(define-fun |changed: admission may be admitted| () Bool
  (and
    |changed: 13.1 stands on admission|
    (not (or |changed: 13.2 stands on admission| |changed: 13.3 stands on admission|))))
(define-fun |changed: admission is settled| () Bool
  (and
    (or
      |changed: admission may be admitted|
      |changed: admission may be after_mending|
      |changed: admission may be refused|)
    (not
      (<=
        2
        (+
          (ite |changed: admission may be admitted| 1 0)
          (ite |changed: admission may be after_mending| 1 0)
          (ite |changed: admission may be refused| 1 0))))))
(define-fun |changed: 14.2 stands on duties| () Bool
  |changed: 14.2 is in force|)
(define-fun |changed: duties may be stand_down| () Bool
  |changed: 14.2 stands on duties|)
(define-fun |changed: 15.5 stands on duties| () Bool
  |changed: 15.5 is in force|)
(define-fun |changed: 11.7 stands on duties| () Bool
  |changed: 11.7 is in force|)
(define-fun |changed: 8.12 stands on duties| () Bool
  |changed: 8.12 is in force|)
(define-fun |changed: duties may be report| () Bool
  (or
    |changed: 8.12 stands on duties|
    |changed: 11.7 stands on duties|
    |changed: 15.5 stands on duties|))
(define-fun |changed: 14.1 stands on duties| () Bool
  |changed: 14.1 is in force|)
(define-fun |changed: duties may be call_physician| () Bool
  |changed: 14.1 stands on duties|)
(define-fun |changed: rulings clash on duties| () Bool
  false)
(define-fun |changed: a clause speaks on coach| () Bool
  (or
    |changed: 15.1 is in force|
    |changed: 15.2 is in force|
    |changed: 15.3 is in force|
    |changed: 15.4 is in force|
    |changed: 15.5 is in force|))
(define-fun |changed: rulings clash on coach| () Bool
  (and
    |changed: a clause speaks on coach|
    (not
      (or
        |changed: coach may be stays|
        |changed: coach may be warned|
        |changed: coach may be sent_away|))))
(define-fun |changed: rulings clash on result| () Bool
  (and
    |changed: a clause speaks on result|
    (not
      (or |changed: result may be open| |changed: result may be won| |changed: result may be lost|))))
(define-fun |changed: rulings clash on play| () Bool
  (and
    |changed: a clause speaks on play|
    (not (or |changed: play may be continues| |changed: play may be stops|))))
(define-fun |changed: rulings clash on score| () Bool
  (and
    |changed: a clause speaks on score|
    (not
      (or |changed: score may be none| |changed: score may be half| |changed: score may be full|))))
(define-fun |changed: rulings clash on penalty| () Bool
  (and
    |changed: a clause speaks on penalty|
    (not
      (or
        |changed: penalty may be none|
        |changed: penalty may be caution|
        |changed: penalty may be second_caution|
        |changed: penalty may be disqualification|))))
(define-fun |changed: a clause speaks on admission| () Bool
  (or |changed: 13.1 is in force| |changed: 13.2 is in force| |changed: 13.3 is in force|))
(define-fun |changed: rulings clash on admission| () Bool
  (and
    |changed: a clause speaks on admission|
    (not
      (or
        |changed: admission may be admitted|
        |changed: admission may be after_mending|
        |changed: admission may be refused|))))
(define-fun |changed: silence on duties is a gap| () Bool
  (= |matter| 4))
(define-fun |changed: there is a gap in duties| () Bool
  (and |changed: silence on duties is a gap| (not |changed: a clause speaks on duties|)))
(define-fun |changed: silence on coach is a gap| () Bool
  (= |matter| 5))
(define-fun |changed: there is a gap in coach| () Bool
  (and |changed: silence on coach is a gap| (not |changed: a clause speaks on coach|)))
(define-fun |changed: there is a gap in result| () Bool
  (and |changed: silence on result is a gap| (not |changed: a clause speaks on result|)))
(define-fun |changed: there is a gap in play| () Bool
  (and |changed: silence on play is a gap| (not |changed: a clause speaks on play|)))
(define-fun |changed: there is a gap in score| () Bool
  (and |changed: silence on score is a gap| (not |changed: a clause speaks on score|)))
(define-fun |changed: there is a gap in penalty| () Bool
  (and |changed: silence on penalty is a gap| (not |changed: a clause speaks on penalty|)))
(define-fun |changed: silence on admission is a gap| () Bool
  (= |matter| 3))
(define-fun |changed: there is a gap in admission| () Bool
  (and |changed: silence on admission is a gap| (not |changed: a clause speaks on admission|)))
(define-fun |changed: admission differs| () Bool
  (or
    (xor |admission may be admitted| |changed: admission may be admitted|)
    (xor |admission may be after_mending| |changed: admission may be after_mending|)
    (xor |admission may be refused| |changed: admission may be refused|)
    (xor |admission is settled| |changed: admission is settled|)
    (xor |there is a gap in admission| |changed: there is a gap in admission|)
    (xor |rulings clash on admission| |changed: rulings clash on admission|)))
(define-fun |changed: penalty differs| () Bool
  (or
    (xor |penalty may be none| |changed: penalty may be none|)
    (xor |penalty may be caution| |changed: penalty may be caution|)
    (xor |penalty may be second_caution| |changed: penalty may be second_caution|)
    (xor |penalty may be disqualification| |changed: penalty may be disqualification|)
    (xor |penalty is settled| |changed: penalty is settled|)
    (xor |there is a gap in penalty| |changed: there is a gap in penalty|)
    (xor |rulings clash on penalty| |changed: rulings clash on penalty|)))
(define-fun |changed: score differs| () Bool
  (or
    (xor |score may be none| |changed: score may be none|)
    (xor |score may be half| |changed: score may be half|)
    (xor |score may be full| |changed: score may be full|)
    (xor |score is settled| |changed: score is settled|)
    (xor |there is a gap in score| |changed: there is a gap in score|)
    (xor |rulings clash on score| |changed: rulings clash on score|)))
(define-fun |changed: play differs| () Bool
  (or
    (xor |play may be continues| |changed: play may be continues|)
    (xor |play may be stops| |changed: play may be stops|)
    (xor |play is settled| |changed: play is settled|)
    (xor |there is a gap in play| |changed: there is a gap in play|)
    (xor |rulings clash on play| |changed: rulings clash on play|)))
(define-fun |changed: result differs| () Bool
  (or
    (xor |result may be open| |changed: result may be open|)
    (xor |result may be won| |changed: result may be won|)
    (xor |result may be lost| |changed: result may be lost|)
    (xor |result is settled| |changed: result is settled|)
    (xor |there is a gap in result| |changed: there is a gap in result|)
    (xor |rulings clash on result| |changed: rulings clash on result|)))
(define-fun |changed: coach differs| () Bool
  (or
    (xor |coach may be stays| |changed: coach may be stays|)
    (xor |coach may be warned| |changed: coach may be warned|)
    (xor |coach may be sent_away| |changed: coach may be sent_away|)
    (xor |coach is settled| |changed: coach is settled|)
    (xor |there is a gap in coach| |changed: there is a gap in coach|)
    (xor |rulings clash on coach| |changed: rulings clash on coach|)))
(define-fun |changed: duties differs| () Bool
  (or
    (xor |duties may be call_physician| |changed: duties may be call_physician|)
    (xor |duties may be report| |changed: duties may be report|)
    (xor |duties may be stand_down| |changed: duties may be stand_down|)
    (xor |duties is settled| |changed: duties is settled|)
    (xor |there is a gap in duties| |changed: there is a gap in duties|)
    (xor |rulings clash on duties| |changed: rulings clash on duties|)))

; What isn't asked has no value; it is pinned to no, zero, or the empty set.
(assert (or |cautions_before is asked| (= |cautions_before| 0)))
(assert (or |phase is asked| (= |phase| 0)))
(assert (=> |after_call| |after_call is asked|))
(assert (or |action is asked| (= |action| 0)))
(assert (=> |hand_on_leg| |hand_on_leg is asked|))
(assert (=> |submission| |submission is asked|))
(assert (or |video is asked| (= |video| 0)))
(assert (or |left_hand is asked| (= |left_hand| 0)))
(assert (or |right_hand is asked| (= |right_hand| 0)))
(assert (or |seconds_gripped is asked| (= |seconds_gripped| 0)))
(assert (or |seconds_without_attack is asked| (= |seconds_without_attack| 0)))
(assert (or |held_by is asked| (= |held_by| 0)))
(assert (or |landing is asked| (= |landing| 0)))
(assert (or |control is asked| (= |control| 0)))
(assert (or |joint is asked| (= |joint| 0)))
(assert (or |pressure is asked| (= |pressure| 0)))
(assert (=> |weight_dropped| |weight_dropped is asked|))
(assert (or |way_under is asked| (= |way_under| 0)))
(assert (or |entry is asked| (= |entry| 0)))
(assert (or |strangle_with is asked| (= |strangle_with| 0)))
(assert (or |leg_state is asked| (= |leg_state| 0)))
(assert (or |leg_held is asked| (= |leg_held| 0)))
(assert (or |seconds_held is asked| (= |seconds_held| 0)))
(assert (or |lift_end is asked| (= |lift_end| 0)))
(assert (or |conduct is asked| (= |conduct| 0)))
(assert (=> |deliberate| |deliberate is asked|))
(assert (or |force is asked| (= |force| 0)))
(assert (or |left_by is asked| (= |left_by| 0)))
(assert (=> |still_inside includes attacker| |still_inside is asked|))
(assert (=> |still_inside includes defender| |still_inside is asked|))
(assert (or |dress_seen is asked| (= |dress_seen| 0)))
(assert (=> |dress_faults includes belt| |dress_faults is asked|))
(assert (=> |dress_faults includes jacket| |dress_faults is asked|))
(assert (=> |dress_faults includes metal| |dress_faults is asked|))
(assert (=> |dress_faults includes nails| |dress_faults is asked|))
(assert (=> |dress_faults includes padding| |dress_faults is asked|))
(assert (or |sleeve_gap is asked| (= |sleeve_gap| 0)))
(assert (or |injury is asked| (= |injury| 0)))
(assert (or |times_treated is asked| (= |times_treated| 0)))
(assert (or |caused_by is asked| (= |caused_by| 0)))
(assert (or |physician is asked| (= |physician| 0)))
(assert (or |coach_act is asked| (= |coach_act| 0)))
(assert (=> |coach_warned| |coach_warned is asked|))
(assert (=> |attack_at_once is read broadly| |attack_at_once is open to reading|))
(assert (=> |hard_contact is read broadly| |hard_contact is open to reading|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is strike) of clause 8.5, or the clause would say what isn't so?
(push 1)
(set-info :status unsat)
(assert
  (and
    (= |the change that is made| 1)
    (or
      (and |8.5 is met| (not |changed: 8.5 is met|))
      (and (not |8.5 is met|) |changed: 8.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.5 is in force| (not |8.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is strike) of clause 8.6, or the clause would say what isn't so?
(push 1)
(set-info :status unsat)
(assert
  (and
    (= |the change that is made| 2)
    (or
      (and |8.6 is met| (not |changed: 8.6 is met|))
      (and (not |8.6 is met|) |changed: 8.6 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.6 is in force| (not |8.6 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (joint_attack) of clause 1.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 3)
    (or
      (and |1.1 is met| (not |changed: 1.1 is met|))
      (and (not |1.1 is met|) |changed: 1.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 1.1 is in force|
        (not |1.1 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (attack_at_once) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 4)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is standing and unusual_grip) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 5)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is standing) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 6)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (unusual_grip) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 7)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (any: - left_hand is inside_cuff - right_hand is inside_cuff) of clause 2.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 8)
    (or
      (and |2.2 is met| (not |changed: 2.2 is met|))
      (and (not |2.2 is met|) |changed: 2.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.2 is in force| (not |2.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (left_hand is inside_cuff) of clause 2.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 9)
    (or
      (and |2.2 is met| (not |changed: 2.2 is met|))
      (and (not |2.2 is met|) |changed: 2.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.2 is in force| (not |2.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (right_hand is inside_cuff) of clause 2.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 10)
    (or
      (and |2.2 is met| (not |changed: 2.2 is met|))
      (and (not |2.2 is met|) |changed: 2.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.2 is in force| (not |2.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (seconds_without_attack at least attack_due) of clause 2.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 11)
    (or
      (and |2.3 is met| (not |changed: 2.3 is met|))
      (and (not |2.3 is met|) |changed: 2.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 2.3 is in force| (not |2.3 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (from_standing and landing is full_back and control is full) of clause 3.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 12)
    (or
      (and |3.1 is met| (not |changed: 3.1 is met|))
      (and (not |3.1 is met|) |changed: 3.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.1 is in force| (not |3.1 is met|) (not |changed: worth may be full|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (from_standing) of clause 3.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 13)
    (or
      (and |3.1 is met| (not |changed: 3.1 is met|))
      (and (not |3.1 is met|) |changed: 3.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.1 is in force| (not |3.1 is met|) (not |changed: worth may be full|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (landing is full_back) of clause 3.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 14)
    (or
      (and |3.1 is met| (not |changed: 3.1 is met|))
      (and (not |3.1 is met|) |changed: 3.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.1 is in force| (not |3.1 is met|) (not |changed: worth may be full|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.3 (control is full) of clause 3.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 15)
    (or
      (and |3.1 is met| (not |changed: 3.1 is met|))
      (and (not |3.1 is met|) |changed: 3.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.1 is in force| (not |3.1 is met|) (not |changed: worth may be full|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (from_standing and landing is full_back and control is fair) of clause 3.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 16)
    (or
      (and |3.2 is met| (not |changed: 3.2 is met|))
      (and (not |3.2 is met|) |changed: 3.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.2 is in force| (not |3.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (from_standing) of clause 3.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 17)
    (or
      (and |3.2 is met| (not |changed: 3.2 is met|))
      (and (not |3.2 is met|) |changed: 3.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.2 is in force| (not |3.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (landing is full_back) of clause 3.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 18)
    (or
      (and |3.2 is met| (not |changed: 3.2 is met|))
      (and (not |3.2 is met|) |changed: 3.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.2 is in force| (not |3.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.3 (control is fair) of clause 3.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 19)
    (or
      (and |3.2 is met| (not |changed: 3.2 is met|))
      (and (not |3.2 is met|) |changed: 3.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.2 is in force| (not |3.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (all: - from_standing - landing is between side and back_part - control at least  ...) of clause 3.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 20)
    (or
      (and |3.3 is met| (not |changed: 3.3 is met|))
      (and (not |3.3 is met|) |changed: 3.3 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.3 is in force| (not |3.3 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (from_standing) of clause 3.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 21)
    (or
      (and |3.3 is met| (not |changed: 3.3 is met|))
      (and (not |3.3 is met|) |changed: 3.3 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.3 is in force| (not |3.3 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (landing is between side and back_part) of clause 3.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 22)
    (or
      (and |3.3 is met| (not |changed: 3.3 is met|))
      (and (not |3.3 is met|) |changed: 3.3 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.3 is in force| (not |3.3 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.3 (control at least fair) of clause 3.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 23)
    (or
      (and |3.3 is met| (not |changed: 3.3 is met|))
      (and (not |3.3 is met|) |changed: 3.3 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.3 is in force| (not |3.3 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is rising and landing is full_back and control is full) of clause 3.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 24)
    (or
      (and |3.4 is met| (not |changed: 3.4 is met|))
      (and (not |3.4 is met|) |changed: 3.4 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.4 is in force| (not |3.4 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is rising) of clause 3.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 25)
    (or
      (and |3.4 is met| (not |changed: 3.4 is met|))
      (and (not |3.4 is met|) |changed: 3.4 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.4 is in force| (not |3.4 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (landing is full_back) of clause 3.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 26)
    (or
      (and |3.4 is met| (not |changed: 3.4 is met|))
      (and (not |3.4 is met|) |changed: 3.4 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.4 is in force| (not |3.4 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.3 (control is full) of clause 3.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 27)
    (or
      (and |3.4 is met| (not |changed: 3.4 is met|))
      (and (not |3.4 is met|) |changed: 3.4 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 3.4 is in force| (not |3.4 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (held_by is one of (collar_and_sleeve, both_sleeves)) of clause 3.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 28)
    (or
      (and |3.5 is met| (not |changed: 3.5 is met|))
      (and (not |3.5 is met|) |changed: 3.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 3.5 is in force| (not |3.5 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (pressure is to_elbow) of clause 4.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 29)
    (or
      (and |4.1 is met| (not |changed: 4.1 is met|))
      (and (not |4.1 is met|) |changed: 4.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 4.1 is in force| (not |4.1 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (from_standing and weight_dropped) of clause 4.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 30)
    (or
      (and |4.2 is met| (not |changed: 4.2 is met|))
      (and (not |4.2 is met|) |changed: 4.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 4.2 is in force|
        (not |4.2 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (from_standing) of clause 4.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 31)
    (or
      (and |4.2 is met| (not |changed: 4.2 is met|))
      (and (not |4.2 is met|) |changed: 4.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 4.2 is in force|
        (not |4.2 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (weight_dropped) of clause 4.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 32)
    (or
      (and |4.2 is met| (not |changed: 4.2 is met|))
      (and (not |4.2 is met|) |changed: 4.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 4.2 is in force|
        (not |4.2 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (way_under is turned_into) of clause 4.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 33)
    (or
      (and |4.3 is met| (not |changed: 4.3 is met|))
      (and (not |4.3 is met|) |changed: 4.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 4.3 is in force| (not |4.3 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (phase is one of (ground, rising)) of clause 4.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 34)
    (or
      (and |4.4 is met| (not |changed: 4.4 is met|))
      (and (not |4.4 is met|) |changed: 4.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 4.4 is in force| (not |4.4 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (entry is flying) of clause 4.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 35)
    (or
      (and |4.4 is met| (not |changed: 4.4 is met|))
      (and (not |4.4 is met|) |changed: 4.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 4.4 is in force| (not |4.4 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is standing and not submission) of clause 4.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 36)
    (or
      (and |4.5 is met| (not |changed: 4.5 is met|))
      (and (not |4.5 is met|) |changed: 4.5 is met|))
    (or
      |changed: play differs|
      (and |changed: 4.5 is in force| (not |4.5 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is standing) of clause 4.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 37)
    (or
      (and |4.5 is met| (not |changed: 4.5 is met|))
      (and (not |4.5 is met|) |changed: 4.5 is met|))
    (or
      |changed: play differs|
      (and |changed: 4.5 is in force| (not |4.5 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not submission) of clause 4.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 38)
    (or
      (and |4.5 is met| (not |changed: 4.5 is met|))
      (and (not |4.5 is met|) |changed: 4.5 is met|))
    (or
      |changed: play differs|
      (and |changed: 4.5 is in force| (not |4.5 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (strangle_with is one of (cloth, forearm)) of clause 5.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 39)
    (or
      (and |5.1 is met| (not |changed: 5.1 is met|))
      (and (not |5.1 is met|) |changed: 5.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.1 is in force| (not |5.1 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (strangle_with is one of (belt, fingers)) of clause 5.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 40)
    (or
      (and |5.2 is met| (not |changed: 5.2 is met|))
      (and (not |5.2 is met|) |changed: 5.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.2 is in force| (not |5.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (strangle_with is legs) of clause 5.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 41)
    (or
      (and |5.3 is met| (not |changed: 5.3 is met|))
      (and (not |5.3 is met|) |changed: 5.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.3 is in force| (not |5.3 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (leg_state is drawn_straight and leg_held is pulled) of clause 5.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 42)
    (or
      (and |5.4 is met| (not |changed: 5.4 is met|))
      (and (not |5.4 is met|) |changed: 5.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.4 is in force| (not |5.4 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (leg_state is drawn_straight) of clause 5.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 43)
    (or
      (and |5.4 is met| (not |changed: 5.4 is met|))
      (and (not |5.4 is met|) |changed: 5.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.4 is in force| (not |5.4 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (leg_held is pulled) of clause 5.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 44)
    (or
      (and |5.4 is met| (not |changed: 5.4 is met|))
      (and (not |5.4 is met|) |changed: 5.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.4 is in force| (not |5.4 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (leg_state is drawn_straight and leg_held is weight_above) of clause 5.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 45)
    (or
      (and |5.5 is met| (not |changed: 5.5 is met|))
      (and (not |5.5 is met|) |changed: 5.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.5 is in force| (not |5.5 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (leg_state is drawn_straight) of clause 5.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 46)
    (or
      (and |5.5 is met| (not |changed: 5.5 is met|))
      (and (not |5.5 is met|) |changed: 5.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.5 is in force| (not |5.5 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (leg_held is weight_above) of clause 5.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 47)
    (or
      (and |5.5 is met| (not |changed: 5.5 is met|))
      (and (not |5.5 is met|) |changed: 5.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 5.5 is in force| (not |5.5 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is standing) of clause 6.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 48)
    (or
      (and |6.1 is met| (not |changed: 6.1 is met|))
      (and (not |6.1 is met|) |changed: 6.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 6.1 is in force| (not |6.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is going_down and action is one of (grip, throw)) of clause 6.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 49)
    (or
      (and |6.2 is met| (not |changed: 6.2 is met|))
      (and (not |6.2 is met|) |changed: 6.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 6.2 is in force| (not |6.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is going_down) of clause 6.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 50)
    (or
      (and |6.2 is met| (not |changed: 6.2 is met|))
      (and (not |6.2 is met|) |changed: 6.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 6.2 is in force| (not |6.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (action is one of (grip, throw)) of clause 6.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 51)
    (or
      (and |6.2 is met| (not |changed: 6.2 is met|))
      (and (not |6.2 is met|) |changed: 6.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 6.2 is in force| (not |6.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is one of (ground, rising)) of clause 6.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 52)
    (or
      (and |6.3 is met| (not |changed: 6.3 is met|))
      (and (not |6.3 is met|) |changed: 6.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 6.3 is in force| (not |6.3 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (lift_end is set_down) of clause 7.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 53)
    (or
      (and |7.1 is met| (not |changed: 7.1 is met|))
      (and (not |7.1 is met|) |changed: 7.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 7.1 is in force| (not |7.1 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (lift_end is dropped) of clause 7.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 54)
    (or
      (and |7.2 is met| (not |changed: 7.2 is met|))
      (and (not |7.2 is met|) |changed: 7.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 7.2 is in force| (not |7.2 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (lift_end is driven) of clause 7.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 55)
    (or
      (and |7.3 is met| (not |changed: 7.3 is met|))
      (and (not |7.3 is met|) |changed: 7.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 7.3 is in force|
        (not |7.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is one of (ground, rising)) of clause 7.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 56)
    (or
      (and |7.4 is met| (not |changed: 7.4 is met|))
      (and (not |7.4 is met|) |changed: 7.4 is met|))
    (or
      |changed: play differs|
      (and |changed: 7.4 is in force| (not |7.4 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is eye and force is light) of clause 8.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 57)
    (or
      (and |8.1 is met| (not |changed: 8.1 is met|))
      (and (not |8.1 is met|) |changed: 8.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.1 is in force| (not |8.1 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is eye) of clause 8.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 58)
    (or
      (and |8.1 is met| (not |changed: 8.1 is met|))
      (and (not |8.1 is met|) |changed: 8.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.1 is in force| (not |8.1 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (force is light) of clause 8.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 59)
    (or
      (and |8.1 is met| (not |changed: 8.1 is met|))
      (and (not |8.1 is met|) |changed: 8.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.1 is in force| (not |8.1 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is eye and force is firm) of clause 8.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 60)
    (or
      (and |8.2 is met| (not |changed: 8.2 is met|))
      (and (not |8.2 is met|) |changed: 8.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.2 is in force| (not |8.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is eye) of clause 8.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 61)
    (or
      (and |8.2 is met| (not |changed: 8.2 is met|))
      (and (not |8.2 is met|) |changed: 8.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.2 is in force| (not |8.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (force is firm) of clause 8.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 62)
    (or
      (and |8.2 is met| (not |changed: 8.2 is met|))
      (and (not |8.2 is met|) |changed: 8.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.2 is in force| (not |8.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is eye and force is full) of clause 8.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 63)
    (or
      (and |8.3 is met| (not |changed: 8.3 is met|))
      (and (not |8.3 is met|) |changed: 8.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.3 is in force|
        (not |8.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is eye) of clause 8.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 64)
    (or
      (and |8.3 is met| (not |changed: 8.3 is met|))
      (and (not |8.3 is met|) |changed: 8.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.3 is in force|
        (not |8.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (force is full) of clause 8.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 65)
    (or
      (and |8.3 is met| (not |changed: 8.3 is met|))
      (and (not |8.3 is met|) |changed: 8.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.3 is in force|
        (not |8.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is strike and deliberate) of clause 8.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 66)
    (or
      (and |8.4 is met| (not |changed: 8.4 is met|))
      (and (not |8.4 is met|) |changed: 8.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.4 is in force|
        (not |8.4 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is strike) of clause 8.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 67)
    (or
      (and |8.4 is met| (not |changed: 8.4 is met|))
      (and (not |8.4 is met|) |changed: 8.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.4 is in force|
        (not |8.4 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (deliberate) of clause 8.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 68)
    (or
      (and |8.4 is met| (not |changed: 8.4 is met|))
      (and (not |8.4 is met|) |changed: 8.4 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.4 is in force|
        (not |8.4 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is strike and not deliberate and hard_contact) of clause 8.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 69)
    (or
      (and |8.5 is met| (not |changed: 8.5 is met|))
      (and (not |8.5 is met|) |changed: 8.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.5 is in force| (not |8.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not deliberate) of clause 8.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 70)
    (or
      (and |8.5 is met| (not |changed: 8.5 is met|))
      (and (not |8.5 is met|) |changed: 8.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.5 is in force| (not |8.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.3 (hard_contact) of clause 8.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 71)
    (or
      (and |8.5 is met| (not |changed: 8.5 is met|))
      (and (not |8.5 is met|) |changed: 8.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.5 is in force| (not |8.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is strike and not deliberate and not hard_contact) of clause 8.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 72)
    (or
      (and |8.6 is met| (not |changed: 8.6 is met|))
      (and (not |8.6 is met|) |changed: 8.6 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.6 is in force| (not |8.6 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not deliberate) of clause 8.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 73)
    (or
      (and |8.6 is met| (not |changed: 8.6 is met|))
      (and (not |8.6 is met|) |changed: 8.6 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.6 is in force| (not |8.6 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.3 (not hard_contact) of clause 8.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 74)
    (or
      (and |8.6 is met| (not |changed: 8.6 is met|))
      (and (not |8.6 is met|) |changed: 8.6 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.6 is in force| (not |8.6 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is strike and after_call) of clause 8.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 75)
    (or
      (and |8.7 is met| (not |changed: 8.7 is met|))
      (and (not |8.7 is met|) |changed: 8.7 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.7 is in force|
        (not |8.7 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is strike) of clause 8.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 76)
    (or
      (and |8.7 is met| (not |changed: 8.7 is met|))
      (and (not |8.7 is met|) |changed: 8.7 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.7 is in force|
        (not |8.7 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (after_call) of clause 8.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 77)
    (or
      (and |8.7 is met| (not |changed: 8.7 is met|))
      (and (not |8.7 is met|) |changed: 8.7 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.7 is in force|
        (not |8.7 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is finger_bend) of clause 8.8, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 78)
    (or
      (and |8.8 is met| (not |changed: 8.8 is met|))
      (and (not |8.8 is met|) |changed: 8.8 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.8 is in force| (not |8.8 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is face) of clause 8.9, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 79)
    (or
      (and |8.9 is met| (not |changed: 8.9 is met|))
      (and (not |8.9 is met|) |changed: 8.9 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.9 is in force| (not |8.9 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is feint and deliberate) of clause 8.10, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 80)
    (or
      (and |8.10 is met| (not |changed: 8.10 is met|))
      (and (not |8.10 is met|) |changed: 8.10 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.10 is in force| (not |8.10 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is feint) of clause 8.10, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 81)
    (or
      (and |8.10 is met| (not |changed: 8.10 is met|))
      (and (not |8.10 is met|) |changed: 8.10 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.10 is in force| (not |8.10 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (deliberate) of clause 8.10, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 82)
    (or
      (and |8.10 is met| (not |changed: 8.10 is met|))
      (and (not |8.10 is met|) |changed: 8.10 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.10 is in force| (not |8.10 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is feint and not deliberate) of clause 8.11, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 83)
    (or
      (and |8.11 is met| (not |changed: 8.11 is met|))
      (and (not |8.11 is met|) |changed: 8.11 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.11 is in force| (not |8.11 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (conduct is feint) of clause 8.11, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 84)
    (or
      (and |8.11 is met| (not |changed: 8.11 is met|))
      (and (not |8.11 is met|) |changed: 8.11 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.11 is in force| (not |8.11 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not deliberate) of clause 8.11, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 85)
    (or
      (and |8.11 is met| (not |changed: 8.11 is met|))
      (and (not |8.11 is met|) |changed: 8.11 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 8.11 is in force| (not |8.11 is met|) (not |changed: deserved may be nothing|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (conduct is insult) of clause 8.12, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 86)
    (or
      (and |8.12 is met| (not |changed: 8.12 is met|))
      (and (not |8.12 is met|) |changed: 8.12 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 8.12 is in force|
        (not |8.12 is met|)
        (or (not |changed: deserved may be major|) (not |changed: duties may be report|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (seconds_held at least full_hold_from) of clause 9.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 87)
    (or
      (and |9.1 is met| (not |changed: 9.1 is met|))
      (and (not |9.1 is met|) |changed: 9.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and
        |changed: 9.1 is in force|
        (not |9.1 is met|)
        (or (not |changed: worth may be full|) (not |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (seconds_held at least half_hold_from and seconds_held less than full_hold_from) of clause 9.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 88)
    (or
      (and |9.2 is met| (not |changed: 9.2 is met|))
      (and (not |9.2 is met|) |changed: 9.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 9.2 is in force| (not |9.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (seconds_held at least half_hold_from) of clause 9.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 89)
    (or
      (and |9.2 is met| (not |changed: 9.2 is met|))
      (and (not |9.2 is met|) |changed: 9.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 9.2 is in force| (not |9.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (seconds_held less than full_hold_from) of clause 9.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 90)
    (or
      (and |9.2 is met| (not |changed: 9.2 is met|))
      (and (not |9.2 is met|) |changed: 9.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 9.2 is in force| (not |9.2 is met|) (not |changed: worth may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (submission) of clause 10.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 91)
    (or
      (and |10.1 is met| (not |changed: 10.1 is met|))
      (and (not |10.1 is met|) |changed: 10.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 10.1 is in force| (not |10.1 is met|) (not |changed: worth may be full|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (worth is full and deserved is nothing and video is confirmed) of clause 10.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 92)
    (or
      (and |10.2 is met| (not |changed: 10.2 is met|))
      (and (not |10.2 is met|) |changed: 10.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and
        |changed: 10.2 is in force|
        (not |10.2 is met|)
        (or (not |changed: score may be full|) (not |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (worth is full) of clause 10.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 93)
    (or
      (and |10.2 is met| (not |changed: 10.2 is met|))
      (and (not |10.2 is met|) |changed: 10.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and
        |changed: 10.2 is in force|
        (not |10.2 is met|)
        (or (not |changed: score may be full|) (not |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (deserved is nothing) of clause 10.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 94)
    (or
      (and |10.2 is met| (not |changed: 10.2 is met|))
      (and (not |10.2 is met|) |changed: 10.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and
        |changed: 10.2 is in force|
        (not |10.2 is met|)
        (or (not |changed: score may be full|) (not |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (video is confirmed) of clause 10.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 95)
    (or
      (and |10.2 is met| (not |changed: 10.2 is met|))
      (and (not |10.2 is met|) |changed: 10.2 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and
        |changed: 10.2 is in force|
        (not |10.2 is met|)
        (or (not |changed: score may be full|) (not |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (worth is full and deserved is nothing and video is corrected) of clause 10.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 96)
    (or
      (and |10.3 is met| (not |changed: 10.3 is met|))
      (and (not |10.3 is met|) |changed: 10.3 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.3 is in force| (not |10.3 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (worth is full) of clause 10.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 97)
    (or
      (and |10.3 is met| (not |changed: 10.3 is met|))
      (and (not |10.3 is met|) |changed: 10.3 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.3 is in force| (not |10.3 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (deserved is nothing) of clause 10.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 98)
    (or
      (and |10.3 is met| (not |changed: 10.3 is met|))
      (and (not |10.3 is met|) |changed: 10.3 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.3 is in force| (not |10.3 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (video is corrected) of clause 10.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 99)
    (or
      (and |10.3 is met| (not |changed: 10.3 is met|))
      (and (not |10.3 is met|) |changed: 10.3 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.3 is in force| (not |10.3 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (worth is half and deserved is nothing) of clause 10.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 100)
    (or
      (and |10.4 is met| (not |changed: 10.4 is met|))
      (and (not |10.4 is met|) |changed: 10.4 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.4 is in force| (not |10.4 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (worth is half) of clause 10.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 101)
    (or
      (and |10.4 is met| (not |changed: 10.4 is met|))
      (and (not |10.4 is met|) |changed: 10.4 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.4 is in force| (not |10.4 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (deserved is nothing) of clause 10.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 102)
    (or
      (and |10.4 is met| (not |changed: 10.4 is met|))
      (and (not |10.4 is met|) |changed: 10.4 is met|))
    (or
      |changed: score differs|
      |changed: result differs|
      (and |changed: 10.4 is in force| (not |10.4 is met|) (not |changed: score may be half|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (score is full) of clause 10.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 103)
    (or
      (and |10.5 is met| (not |changed: 10.5 is met|))
      (and (not |10.5 is met|) |changed: 10.5 is met|))
    (or
      |changed: result differs|
      (and |changed: 10.5 is in force| (not |10.5 is met|) (not |changed: result may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved is minor and cautions_before is 0) of clause 11.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 104)
    (or
      (and |11.1 is met| (not |changed: 11.1 is met|))
      (and (not |11.1 is met|) |changed: 11.1 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 11.1 is in force| (not |11.1 is met|) (not |changed: penalty may be caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (deserved is minor) of clause 11.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 105)
    (or
      (and |11.1 is met| (not |changed: 11.1 is met|))
      (and (not |11.1 is met|) |changed: 11.1 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 11.1 is in force| (not |11.1 is met|) (not |changed: penalty may be caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (cautions_before is 0) of clause 11.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 106)
    (or
      (and |11.1 is met| (not |changed: 11.1 is met|))
      (and (not |11.1 is met|) |changed: 11.1 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 11.1 is in force| (not |11.1 is met|) (not |changed: penalty may be caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved is minor and cautions_before is 1) of clause 11.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 107)
    (or
      (and |11.2 is met| (not |changed: 11.2 is met|))
      (and (not |11.2 is met|) |changed: 11.2 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.2 is in force|
        (not |11.2 is met|)
        (not |changed: penalty may be second_caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (deserved is minor) of clause 11.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 108)
    (or
      (and |11.2 is met| (not |changed: 11.2 is met|))
      (and (not |11.2 is met|) |changed: 11.2 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.2 is in force|
        (not |11.2 is met|)
        (not |changed: penalty may be second_caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (cautions_before is 1) of clause 11.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 109)
    (or
      (and |11.2 is met| (not |changed: 11.2 is met|))
      (and (not |11.2 is met|) |changed: 11.2 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.2 is in force|
        (not |11.2 is met|)
        (not |changed: penalty may be second_caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved is minor and cautions_before at least 2) of clause 11.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 110)
    (or
      (and |11.3 is met| (not |changed: 11.3 is met|))
      (and (not |11.3 is met|) |changed: 11.3 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.3 is in force|
        (not |11.3 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (deserved is minor) of clause 11.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 111)
    (or
      (and |11.3 is met| (not |changed: 11.3 is met|))
      (and (not |11.3 is met|) |changed: 11.3 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.3 is in force|
        (not |11.3 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (cautions_before at least 2) of clause 11.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 112)
    (or
      (and |11.3 is met| (not |changed: 11.3 is met|))
      (and (not |11.3 is met|) |changed: 11.3 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.3 is in force|
        (not |11.3 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved is major and cautions_before is 0) of clause 11.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 113)
    (or
      (and |11.4 is met| (not |changed: 11.4 is met|))
      (and (not |11.4 is met|) |changed: 11.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.4 is in force|
        (not |11.4 is met|)
        (not |changed: penalty may be second_caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (deserved is major) of clause 11.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 114)
    (or
      (and |11.4 is met| (not |changed: 11.4 is met|))
      (and (not |11.4 is met|) |changed: 11.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.4 is in force|
        (not |11.4 is met|)
        (not |changed: penalty may be second_caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (cautions_before is 0) of clause 11.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 115)
    (or
      (and |11.4 is met| (not |changed: 11.4 is met|))
      (and (not |11.4 is met|) |changed: 11.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.4 is in force|
        (not |11.4 is met|)
        (not |changed: penalty may be second_caution|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved is major and cautions_before at least 1) of clause 11.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 116)
    (or
      (and |11.5 is met| (not |changed: 11.5 is met|))
      (and (not |11.5 is met|) |changed: 11.5 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.5 is in force|
        (not |11.5 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (deserved is major) of clause 11.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 117)
    (or
      (and |11.5 is met| (not |changed: 11.5 is met|))
      (and (not |11.5 is met|) |changed: 11.5 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.5 is in force|
        (not |11.5 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (cautions_before at least 1) of clause 11.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 118)
    (or
      (and |11.5 is met| (not |changed: 11.5 is met|))
      (and (not |11.5 is met|) |changed: 11.5 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.5 is in force|
        (not |11.5 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved is disqualification) of clause 11.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 119)
    (or
      (and |11.6 is met| (not |changed: 11.6 is met|))
      (and (not |11.6 is met|) |changed: 11.6 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.6 is in force|
        (not |11.6 is met|)
        (not |changed: penalty may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (penalty is disqualification) of clause 11.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 120)
    (or
      (and |11.7 is met| (not |changed: 11.7 is met|))
      (and (not |11.7 is met|) |changed: 11.7 is met|))
    (or
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 11.7 is in force|
        (not |11.7 is met|)
        (or (not |changed: result may be lost|) (not |changed: duties may be report|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is standing and left_by is own_step) of clause 12.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 121)
    (or
      (and |12.1 is met| (not |changed: 12.1 is met|))
      (and (not |12.1 is met|) |changed: 12.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 12.1 is in force| (not |12.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is standing) of clause 12.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 122)
    (or
      (and |12.1 is met| (not |changed: 12.1 is met|))
      (and (not |12.1 is met|) |changed: 12.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 12.1 is in force| (not |12.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (left_by is own_step) of clause 12.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 123)
    (or
      (and |12.1 is met| (not |changed: 12.1 is met|))
      (and (not |12.1 is met|) |changed: 12.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 12.1 is in force| (not |12.1 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is standing and left_by is push) of clause 12.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 124)
    (or
      (and |12.2 is met| (not |changed: 12.2 is met|))
      (and (not |12.2 is met|) |changed: 12.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 12.2 is in force| (not |12.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is standing) of clause 12.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 125)
    (or
      (and |12.2 is met| (not |changed: 12.2 is met|))
      (and (not |12.2 is met|) |changed: 12.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 12.2 is in force| (not |12.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (left_by is push) of clause 12.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 126)
    (or
      (and |12.2 is met| (not |changed: 12.2 is met|))
      (and (not |12.2 is met|) |changed: 12.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 12.2 is in force| (not |12.2 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (phase is not standing and still_inside is not empty) of clause 12.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 127)
    (or
      (and |12.3 is met| (not |changed: 12.3 is met|))
      (and (not |12.3 is met|) |changed: 12.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.3 is in force| (not |12.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (phase is not standing) of clause 12.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 128)
    (or
      (and |12.3 is met| (not |changed: 12.3 is met|))
      (and (not |12.3 is met|) |changed: 12.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.3 is in force| (not |12.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (still_inside is not empty) of clause 12.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 129)
    (or
      (and |12.3 is met| (not |changed: 12.3 is met|))
      (and (not |12.3 is met|) |changed: 12.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.3 is in force| (not |12.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (still_inside is empty) of clause 12.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 130)
    (or
      (and |12.4 is met| (not |changed: 12.4 is met|))
      (and (not |12.4 is met|) |changed: 12.4 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.4 is in force| (not |12.4 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (all: - left_by is technique - still_inside includes any of (attacker, defender)) of clause 12.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 131)
    (or
      (and |12.5 is met| (not |changed: 12.5 is met|))
      (and (not |12.5 is met|) |changed: 12.5 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.5 is in force| (not |12.5 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (left_by is technique) of clause 12.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 132)
    (or
      (and |12.5 is met| (not |changed: 12.5 is met|))
      (and (not |12.5 is met|) |changed: 12.5 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.5 is in force| (not |12.5 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (still_inside includes any of (attacker, defender)) of clause 12.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 133)
    (or
      (and |12.5 is met| (not |changed: 12.5 is met|))
      (and (not |12.5 is met|) |changed: 12.5 is met|))
    (or
      |changed: play differs|
      (and |changed: 12.5 is in force| (not |12.5 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (none: - dress_faults is not empty - sleeve_gap less than least_sleeve_gap) of clause 13.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 134)
    (or
      (and |13.1 is met| (not |changed: 13.1 is met|))
      (and (not |13.1 is met|) |changed: 13.1 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.1 is in force|
        (not |13.1 is met|)
        (not |changed: admission may be admitted|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (dress_faults is not empty) of clause 13.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 135)
    (or
      (and |13.1 is met| (not |changed: 13.1 is met|))
      (and (not |13.1 is met|) |changed: 13.1 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.1 is in force|
        (not |13.1 is met|)
        (not |changed: admission may be admitted|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (sleeve_gap less than least_sleeve_gap) of clause 13.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 136)
    (or
      (and |13.1 is met| (not |changed: 13.1 is met|))
      (and (not |13.1 is met|) |changed: 13.1 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.1 is in force|
        (not |13.1 is met|)
        (not |changed: admission may be admitted|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (dress_faults is not empty or sleeve_gap less than least_sleeve_gap) of clause 13.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 137)
    (or
      (and |13.2 is met| (not |changed: 13.2 is met|))
      (and (not |13.2 is met|) |changed: 13.2 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.2 is in force|
        (not |13.2 is met|)
        (not |changed: admission may be after_mending|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (dress_faults is not empty) of clause 13.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 138)
    (or
      (and |13.2 is met| (not |changed: 13.2 is met|))
      (and (not |13.2 is met|) |changed: 13.2 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.2 is in force|
        (not |13.2 is met|)
        (not |changed: admission may be after_mending|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (sleeve_gap less than least_sleeve_gap) of clause 13.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 139)
    (or
      (and |13.2 is met| (not |changed: 13.2 is met|))
      (and (not |13.2 is met|) |changed: 13.2 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.2 is in force|
        (not |13.2 is met|)
        (not |changed: admission may be after_mending|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (dress_faults includes at least 3 of (belt, jacket, metal, nails, padding)) of clause 13.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 140)
    (or
      (and |13.3 is met| (not |changed: 13.3 is met|))
      (and (not |13.3 is met|) |changed: 13.3 is met|))
    (or
      |changed: admission differs|
      (and
        |changed: 13.3 is in force|
        (not |13.3 is met|)
        (not |changed: admission may be refused|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (all: - dress_seen is bout - any: - dress_faults is only belt - dress_faults is o ...) of clause 13.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 141)
    (or
      (and |13.4 is met| (not |changed: 13.4 is met|))
      (and (not |13.4 is met|) |changed: 13.4 is met|))
    (or
      |changed: play differs|
      (and
        |changed: 13.4 is in force|
        (not |13.4 is met|)
        (not (or |changed: play may be continues| |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (dress_seen is bout) of clause 13.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 142)
    (or
      (and |13.4 is met| (not |changed: 13.4 is met|))
      (and (not |13.4 is met|) |changed: 13.4 is met|))
    (or
      |changed: play differs|
      (and
        |changed: 13.4 is in force|
        (not |13.4 is met|)
        (not (or |changed: play may be continues| |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (any: - dress_faults is only belt - dress_faults is only jacket - dress_faults is ...) of clause 13.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 143)
    (or
      (and |13.4 is met| (not |changed: 13.4 is met|))
      (and (not |13.4 is met|) |changed: 13.4 is met|))
    (or
      |changed: play differs|
      (and
        |changed: 13.4 is in force|
        (not |13.4 is met|)
        (not (or |changed: play may be continues| |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2.1 (dress_faults is only belt) of clause 13.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 144)
    (or
      (and |13.4 is met| (not |changed: 13.4 is met|))
      (and (not |13.4 is met|) |changed: 13.4 is met|))
    (or
      |changed: play differs|
      (and
        |changed: 13.4 is in force|
        (not |13.4 is met|)
        (not (or |changed: play may be continues| |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2.2 (dress_faults is only jacket) of clause 13.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 145)
    (or
      (and |13.4 is met| (not |changed: 13.4 is met|))
      (and (not |13.4 is met|) |changed: 13.4 is met|))
    (or
      |changed: play differs|
      (and
        |changed: 13.4 is in force|
        (not |13.4 is met|)
        (not (or |changed: play may be continues| |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2.3 (dress_faults is only (belt, jacket)) of clause 13.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 146)
    (or
      (and |13.4 is met| (not |changed: 13.4 is met|))
      (and (not |13.4 is met|) |changed: 13.4 is met|))
    (or
      |changed: play differs|
      (and
        |changed: 13.4 is in force|
        (not |13.4 is met|)
        (not (or |changed: play may be continues| |changed: play may be stops|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (dress_seen is bout and dress_faults includes any of (metal, nails, padding)) of clause 13.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 147)
    (or
      (and |13.5 is met| (not |changed: 13.5 is met|))
      (and (not |13.5 is met|) |changed: 13.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 13.5 is in force| (not |13.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (dress_seen is bout) of clause 13.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 148)
    (or
      (and |13.5 is met| (not |changed: 13.5 is met|))
      (and (not |13.5 is met|) |changed: 13.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 13.5 is in force| (not |13.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (dress_faults includes any of (metal, nails, padding)) of clause 13.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 149)
    (or
      (and |13.5 is met| (not |changed: 13.5 is met|))
      (and (not |13.5 is met|) |changed: 13.5 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 13.5 is in force| (not |13.5 is met|) (not |changed: deserved may be minor|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (injury is unconscious) of clause 14.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 150)
    (or
      (and |14.2 is met| (not |changed: 14.2 is met|))
      (and (not |14.2 is met|) |changed: 14.2 is met|))
    (or
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 14.2 is in force|
        (not |14.2 is met|)
        (or (not |changed: result may be lost|) (not |changed: duties may be stand_down|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (physician is fit and times_treated less than treatments) of clause 14.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 151)
    (or
      (and |14.3 is met| (not |changed: 14.3 is met|))
      (and (not |14.3 is met|) |changed: 14.3 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.3 is in force| (not |14.3 is met|) (not |changed: result may be open|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (physician is fit) of clause 14.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 152)
    (or
      (and |14.3 is met| (not |changed: 14.3 is met|))
      (and (not |14.3 is met|) |changed: 14.3 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.3 is in force| (not |14.3 is met|) (not |changed: result may be open|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (times_treated less than treatments) of clause 14.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 153)
    (or
      (and |14.3 is met| (not |changed: 14.3 is met|))
      (and (not |14.3 is met|) |changed: 14.3 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.3 is in force| (not |14.3 is met|) (not |changed: result may be open|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (all: - injury is bleeding - physician is unfit or times_treated at least treatme ...) of clause 14.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 154)
    (or
      (and |14.4 is met| (not |changed: 14.4 is met|))
      (and (not |14.4 is met|) |changed: 14.4 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.4 is in force| (not |14.4 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (injury is bleeding) of clause 14.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 155)
    (or
      (and |14.4 is met| (not |changed: 14.4 is met|))
      (and (not |14.4 is met|) |changed: 14.4 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.4 is in force| (not |14.4 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (physician is unfit or times_treated at least treatments) of clause 14.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 156)
    (or
      (and |14.4 is met| (not |changed: 14.4 is met|))
      (and (not |14.4 is met|) |changed: 14.4 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.4 is in force| (not |14.4 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2.1 (physician is unfit) of clause 14.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 157)
    (or
      (and |14.4 is met| (not |changed: 14.4 is met|))
      (and (not |14.4 is met|) |changed: 14.4 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.4 is in force| (not |14.4 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2.2 (times_treated at least treatments) of clause 14.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 158)
    (or
      (and |14.4 is met| (not |changed: 14.4 is met|))
      (and (not |14.4 is met|) |changed: 14.4 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.4 is in force| (not |14.4 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (injury is other and physician is fit) of clause 14.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 159)
    (or
      (and |14.5 is met| (not |changed: 14.5 is met|))
      (and (not |14.5 is met|) |changed: 14.5 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.5 is in force| (not |14.5 is met|) (not |changed: result may be open|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (injury is other) of clause 14.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 160)
    (or
      (and |14.5 is met| (not |changed: 14.5 is met|))
      (and (not |14.5 is met|) |changed: 14.5 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.5 is in force| (not |14.5 is met|) (not |changed: result may be open|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (physician is fit) of clause 14.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 161)
    (or
      (and |14.5 is met| (not |changed: 14.5 is met|))
      (and (not |14.5 is met|) |changed: 14.5 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.5 is in force| (not |14.5 is met|) (not |changed: result may be open|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (physician is unfit and caused_by is barred_act) of clause 14.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 162)
    (or
      (and |14.6 is met| (not |changed: 14.6 is met|))
      (and (not |14.6 is met|) |changed: 14.6 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.6 is in force| (not |14.6 is met|) (not |changed: result may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (physician is unfit) of clause 14.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 163)
    (or
      (and |14.6 is met| (not |changed: 14.6 is met|))
      (and (not |14.6 is met|) |changed: 14.6 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.6 is in force| (not |14.6 is met|) (not |changed: result may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (caused_by is barred_act) of clause 14.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 164)
    (or
      (and |14.6 is met| (not |changed: 14.6 is met|))
      (and (not |14.6 is met|) |changed: 14.6 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.6 is in force| (not |14.6 is met|) (not |changed: result may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (physician is unfit and caused_by is anything_else) of clause 14.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 165)
    (or
      (and |14.7 is met| (not |changed: 14.7 is met|))
      (and (not |14.7 is met|) |changed: 14.7 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.7 is in force| (not |14.7 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (physician is unfit) of clause 14.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 166)
    (or
      (and |14.7 is met| (not |changed: 14.7 is met|))
      (and (not |14.7 is met|) |changed: 14.7 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.7 is in force| (not |14.7 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (caused_by is anything_else) of clause 14.7, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 167)
    (or
      (and |14.7 is met| (not |changed: 14.7 is met|))
      (and (not |14.7 is met|) |changed: 14.7 is met|))
    (or
      |changed: result differs|
      (and |changed: 14.7 is in force| (not |14.7 is met|) (not |changed: result may be lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (coach_act is advice_in_halt) of clause 15.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 168)
    (or
      (and |15.1 is met| (not |changed: 15.1 is met|))
      (and (not |15.1 is met|) |changed: 15.1 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.1 is in force| (not |15.1 is met|) (not |changed: coach may be stays|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (coach_act is advice_in_play and not coach_warned) of clause 15.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 169)
    (or
      (and |15.2 is met| (not |changed: 15.2 is met|))
      (and (not |15.2 is met|) |changed: 15.2 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.2 is in force| (not |15.2 is met|) (not |changed: coach may be warned|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (coach_act is advice_in_play) of clause 15.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 170)
    (or
      (and |15.2 is met| (not |changed: 15.2 is met|))
      (and (not |15.2 is met|) |changed: 15.2 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.2 is in force| (not |15.2 is met|) (not |changed: coach may be warned|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not coach_warned) of clause 15.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 171)
    (or
      (and |15.2 is met| (not |changed: 15.2 is met|))
      (and (not |15.2 is met|) |changed: 15.2 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.2 is in force| (not |15.2 is met|) (not |changed: coach may be warned|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (coach_act is gesture and not coach_warned) of clause 15.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 172)
    (or
      (and |15.3 is met| (not |changed: 15.3 is met|))
      (and (not |15.3 is met|) |changed: 15.3 is met|))
    (or
      |changed: coach differs|
      (and
        |changed: 15.3 is in force|
        (not |15.3 is met|)
        (not (or |changed: coach may be stays| |changed: coach may be warned|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (coach_act is gesture) of clause 15.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 173)
    (or
      (and |15.3 is met| (not |changed: 15.3 is met|))
      (and (not |15.3 is met|) |changed: 15.3 is met|))
    (or
      |changed: coach differs|
      (and
        |changed: 15.3 is in force|
        (not |15.3 is met|)
        (not (or |changed: coach may be stays| |changed: coach may be warned|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not coach_warned) of clause 15.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 174)
    (or
      (and |15.3 is met| (not |changed: 15.3 is met|))
      (and (not |15.3 is met|) |changed: 15.3 is met|))
    (or
      |changed: coach differs|
      (and
        |changed: 15.3 is in force|
        (not |15.3 is met|)
        (not (or |changed: coach may be stays| |changed: coach may be warned|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (coach_act is one of (advice_in_play, gesture) and coach_warned) of clause 15.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 175)
    (or
      (and |15.4 is met| (not |changed: 15.4 is met|))
      (and (not |15.4 is met|) |changed: 15.4 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.4 is in force| (not |15.4 is met|) (not |changed: coach may be sent_away|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (coach_act is one of (advice_in_play, gesture)) of clause 15.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 176)
    (or
      (and |15.4 is met| (not |changed: 15.4 is met|))
      (and (not |15.4 is met|) |changed: 15.4 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.4 is in force| (not |15.4 is met|) (not |changed: coach may be sent_away|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (coach_warned) of clause 15.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 177)
    (or
      (and |15.4 is met| (not |changed: 15.4 is met|))
      (and (not |15.4 is met|) |changed: 15.4 is met|))
    (or
      |changed: coach differs|
      (and |changed: 15.4 is in force| (not |15.4 is met|) (not |changed: coach may be sent_away|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (coach_act is one of (abuse, enters_mat)) of clause 15.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 178)
    (or
      (and |15.5 is met| (not |changed: 15.5 is met|))
      (and (not |15.5 is met|) |changed: 15.5 is met|))
    (or
      |changed: coach differs|
      |changed: duties differs|
      (and
        |changed: 15.5 is in force|
        (not |15.5 is met|)
        (or (not |changed: coach may be sent_away|) (not |changed: duties may be report|))))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (coach_act is enters_mat) of clause 15.6, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 179)
    (or
      (and |15.6 is met| (not |changed: 15.6 is met|))
      (and (not |15.6 is met|) |changed: 15.6 is met|))
    (or
      |changed: play differs|
      (and |changed: 15.6 is in force| (not |15.6 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (after_call) of clause 16.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 180)
    (or
      (and |16.1 is met| (not |changed: 16.1 is met|))
      (and (not |16.1 is met|) |changed: 16.1 is met|))
    (or
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      (and |changed: 16.1 is in force| (not |16.1 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (deserved at least minor) of clause 16.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 181)
    (or
      (and |16.2 is met| (not |changed: 16.2 is met|))
      (and (not |16.2 is met|) |changed: 16.2 is met|))
    (or
      |changed: play differs|
      (and |changed: 16.2 is in force| (not |16.2 is met|) (not |changed: play may be stops|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (all: - deserved is nothing - matter is conduct or action is lift) of clause 16.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 182)
    (or
      (and |16.3 is met| (not |changed: 16.3 is met|))
      (and (not |16.3 is met|) |changed: 16.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 16.3 is in force| (not |16.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (deserved is nothing) of clause 16.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 183)
    (or
      (and |16.3 is met| (not |changed: 16.3 is met|))
      (and (not |16.3 is met|) |changed: 16.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 16.3 is in force| (not |16.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (matter is conduct or action is lift) of clause 16.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 184)
    (or
      (and |16.3 is met| (not |changed: 16.3 is met|))
      (and (not |16.3 is met|) |changed: 16.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 16.3 is in force| (not |16.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (matter is conduct) of clause 16.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 185)
    (or
      (and |16.3 is met| (not |changed: 16.3 is met|))
      (and (not |16.3 is met|) |changed: 16.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 16.3 is in force| (not |16.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (action is lift) of clause 16.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 186)
    (or
      (and |16.3 is met| (not |changed: 16.3 is met|))
      (and (not |16.3 is met|) |changed: 16.3 is met|))
    (or
      |changed: play differs|
      (and |changed: 16.3 is in force| (not |16.3 is met|) (not |changed: play may be continues|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (category is youth and action is one of (lock, strangle)) of clause 17.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 187)
    (or
      (and |17.1 is met| (not |changed: 17.1 is met|))
      (and (not |17.1 is met|) |changed: 17.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.1 is in force| (not |17.1 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (category is youth) of clause 17.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 188)
    (or
      (and |17.1 is met| (not |changed: 17.1 is met|))
      (and (not |17.1 is met|) |changed: 17.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.1 is in force| (not |17.1 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (action is one of (lock, strangle)) of clause 17.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 189)
    (or
      (and |17.1 is met| (not |changed: 17.1 is met|))
      (and (not |17.1 is met|) |changed: 17.1 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.1 is in force| (not |17.1 is met|) (not |changed: deserved may be major|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (category is veteran and entry is flying) of clause 17.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 190)
    (or
      (and |17.2 is met| (not |changed: 17.2 is met|))
      (and (not |17.2 is met|) |changed: 17.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 17.2 is in force|
        (not |17.2 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (category is veteran) of clause 17.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 191)
    (or
      (and |17.2 is met| (not |changed: 17.2 is met|))
      (and (not |17.2 is met|) |changed: 17.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 17.2 is in force|
        (not |17.2 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (entry is flying) of clause 17.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 192)
    (or
      (and |17.2 is met| (not |changed: 17.2 is met|))
      (and (not |17.2 is met|) |changed: 17.2 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 17.2 is in force|
        (not |17.2 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (category is veteran and lift_end is dropped) of clause 17.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 193)
    (or
      (and |17.3 is met| (not |changed: 17.3 is met|))
      (and (not |17.3 is met|) |changed: 17.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 17.3 is in force|
        (not |17.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (category is veteran) of clause 17.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 194)
    (or
      (and |17.3 is met| (not |changed: 17.3 is met|))
      (and (not |17.3 is met|) |changed: 17.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 17.3 is in force|
        (not |17.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (lift_end is dropped) of clause 17.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 195)
    (or
      (and |17.3 is met| (not |changed: 17.3 is met|))
      (and (not |17.3 is met|) |changed: 17.3 is met|))
    (or
      |changed: penalty differs|
      |changed: score differs|
      |changed: play differs|
      |changed: result differs|
      |changed: duties differs|
      (and
        |changed: 17.3 is in force|
        (not |17.3 is met|)
        (not |changed: deserved may be disqualification|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (category is youth and deserved is minor and cautions_before is 0) of clause 17.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 196)
    (or
      (and |17.4 is met| (not |changed: 17.4 is met|))
      (and (not |17.4 is met|) |changed: 17.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.4 is in force| (not |17.4 is met|) (not |changed: penalty may be none|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 1 (category is youth) of clause 17.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 197)
    (or
      (and |17.4 is met| (not |changed: 17.4 is met|))
      (and (not |17.4 is met|) |changed: 17.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.4 is in force| (not |17.4 is met|) (not |changed: penalty may be none|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (deserved is minor) of clause 17.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 198)
    (or
      (and |17.4 is met| (not |changed: 17.4 is met|))
      (and (not |17.4 is met|) |changed: 17.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.4 is in force| (not |17.4 is met|) (not |changed: penalty may be none|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (cautions_before is 0) of clause 17.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 199)
    (or
      (and |17.4 is met| (not |changed: 17.4 is met|))
      (and (not |17.4 is met|) |changed: 17.4 is met|))
    (or
      |changed: penalty differs|
      |changed: result differs|
      |changed: duties differs|
      (and |changed: 17.4 is in force| (not |17.4 is met|) (not |changed: penalty may be none|)))))
(check-sat)
(pop 1)
