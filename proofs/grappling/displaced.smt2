; Contest rules of the Lowland Grappling Union, edition 2031
; For each clause that can be met there is a scenario in which a ruling of it stands, or it is in force and has none.
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
(define-fun |16.3 is met| () Bool
  (and
    |deserved is settled|
    |deserved may be nothing|
    (or (= |matter| 1) (and |action is asked| (= |action| 5)))))
(define-fun |16.3 is in force| () Bool
  |16.3 is met|)
(define-fun |16.1 is met| () Bool
  (and |after_call is asked| |after_call|))
(define-fun |16.1 is in force| () Bool
  |16.1 is met|)
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
(define-fun |coach_act is asked| () Bool
  (= |matter| 5))
(define-fun |15.6 is met| () Bool
  (and (= |matter| 5) (and |coach_act is asked| (= |coach_act| 4))))
(define-fun |15.6 is in force| () Bool
  |15.6 is met|)
(define-fun |15.6 stands on play| () Bool
  |15.6 is in force|)
(define-fun |15.5 is met| () Bool
  (and (= |matter| 5) (and |coach_act is asked| (or (= |coach_act| 3) (= |coach_act| 4)))))
(define-fun |15.5 is in force| () Bool
  |15.5 is met|)
(define-fun |15.5 stands on duties| () Bool
  |15.5 is in force|)
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
(define-fun |injury is asked| () Bool
  (= |matter| 4))
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
(define-fun |14.2 is met| () Bool
  (and (= |matter| 4) (and |injury is asked| (= |injury| 1))))
(define-fun |14.2 is in force| () Bool
  |14.2 is met|)
(define-fun |14.2 stands on duties| () Bool
  |14.2 is in force|)
(define-fun |14.2 stands on result| () Bool
  |14.2 is in force|)
(define-fun |14.1 is met| () Bool
  (= |matter| 4))
(define-fun |14.1 is in force| () Bool
  |14.1 is met|)
(define-fun |14.1 stands on duties| () Bool
  |14.1 is in force|)
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
(define-fun |11.7 stands on duties| () Bool
  |11.7 is in force|)
(define-fun |11.7 stands on result| () Bool
  |11.7 is in force|)
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
(define-fun |10.2 stands on play| () Bool
  |10.2 is in force|)
(define-fun |9.1 stands on play| () Bool
  |9.1 is in force|)
(define-fun |8.12 stands on duties| () Bool
  |8.12 is in force|)
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

; Is there a scenario in which a ruling of clause 1.1 stands?
(push 1)
(set-info :status sat)
(assert
  |1.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 2.1 stands?
(push 1)
(set-info :status sat)
(assert
  |2.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 2.2 stands?
(push 1)
(set-info :status sat)
(assert
  |2.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 2.3 stands?
(push 1)
(set-info :status sat)
(assert
  |2.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.1 stands?
(push 1)
(set-info :status sat)
(assert
  |3.1 stands on worth|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.2 stands?
(push 1)
(set-info :status sat)
(assert
  |3.2 stands on worth|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.3 stands?
(push 1)
(set-info :status sat)
(assert
  |3.3 stands on worth|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.4 stands?
(push 1)
(set-info :status sat)
(assert
  |3.4 stands on worth|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.5 stands?
(push 1)
(set-info :status sat)
(assert
  |3.5 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.1 stands?
(push 1)
(set-info :status sat)
(assert
  |4.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.2 stands?
(push 1)
(set-info :status sat)
(assert
  |4.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.3 stands?
(push 1)
(set-info :status sat)
(assert
  |4.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.4 stands?
(push 1)
(set-info :status sat)
(assert
  |4.4 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.5 stands?
(push 1)
(set-info :status sat)
(assert
  |4.5 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 5.1 stands?
(push 1)
(set-info :status sat)
(assert
  |5.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 5.2 stands?
(push 1)
(set-info :status sat)
(assert
  |5.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 5.3 stands?
(push 1)
(set-info :status sat)
(assert
  |5.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 5.4 stands?
(push 1)
(set-info :status sat)
(assert
  |5.4 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 5.5 stands?
(push 1)
(set-info :status sat)
(assert
  |5.5 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 6.1 stands?
(push 1)
(set-info :status sat)
(assert
  |6.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 6.2 stands?
(push 1)
(set-info :status sat)
(assert
  |6.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 6.3 stands?
(push 1)
(set-info :status sat)
(assert
  |6.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 7.1 stands?
(push 1)
(set-info :status sat)
(assert
  |7.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 7.2 stands?
(push 1)
(set-info :status sat)
(assert
  |7.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 7.3 stands?
(push 1)
(set-info :status sat)
(assert
  |7.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 7.4 stands?
(push 1)
(set-info :status sat)
(assert
  |7.4 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.1 stands?
(push 1)
(set-info :status sat)
(assert
  |8.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.2 stands?
(push 1)
(set-info :status sat)
(assert
  |8.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.3 stands?
(push 1)
(set-info :status sat)
(assert
  |8.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.4 stands?
(push 1)
(set-info :status sat)
(assert
  |8.4 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.5 stands?
(push 1)
(set-info :status sat)
(assert
  |8.5 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.6 stands?
(push 1)
(set-info :status sat)
(assert
  |8.6 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.7 stands?
(push 1)
(set-info :status sat)
(assert
  |8.7 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.8 stands?
(push 1)
(set-info :status sat)
(assert
  |8.8 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.9 stands?
(push 1)
(set-info :status sat)
(assert
  |8.9 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.10 stands?
(push 1)
(set-info :status sat)
(assert
  |8.10 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.11 stands?
(push 1)
(set-info :status sat)
(assert
  |8.11 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 8.12 stands?
(push 1)
(set-info :status sat)
(assert
  (or |8.12 stands on deserved| |8.12 stands on duties|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 9.1 stands?
(push 1)
(set-info :status sat)
(assert
  (or |9.1 stands on worth| |9.1 stands on play|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 9.2 stands?
(push 1)
(set-info :status sat)
(assert
  |9.2 stands on worth|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 10.1 stands?
(push 1)
(set-info :status sat)
(assert
  |10.1 stands on worth|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 10.2 stands?
(push 1)
(set-info :status sat)
(assert
  (or |10.2 stands on score| |10.2 stands on play|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 10.3 stands?
(push 1)
(set-info :status sat)
(assert
  |10.3 stands on score|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 10.4 stands?
(push 1)
(set-info :status sat)
(assert
  |10.4 stands on score|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 10.5 stands?
(push 1)
(set-info :status sat)
(assert
  |10.5 stands on result|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.1 stands?
(push 1)
(set-info :status sat)
(assert
  |11.1 stands on penalty|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.2 stands?
(push 1)
(set-info :status sat)
(assert
  |11.2 stands on penalty|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.3 stands?
(push 1)
(set-info :status sat)
(assert
  |11.3 stands on penalty|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.4 stands?
(push 1)
(set-info :status sat)
(assert
  |11.4 stands on penalty|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.5 stands?
(push 1)
(set-info :status sat)
(assert
  |11.5 stands on penalty|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.6 stands?
(push 1)
(set-info :status sat)
(assert
  |11.6 stands on penalty|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 11.7 stands?
(push 1)
(set-info :status sat)
(assert
  (or |11.7 stands on result| |11.7 stands on duties|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 12.1 stands?
(push 1)
(set-info :status sat)
(assert
  |12.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 12.2 stands?
(push 1)
(set-info :status sat)
(assert
  |12.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 12.3 stands?
(push 1)
(set-info :status sat)
(assert
  |12.3 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 12.4 stands?
(push 1)
(set-info :status sat)
(assert
  |12.4 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 12.5 stands?
(push 1)
(set-info :status sat)
(assert
  |12.5 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 13.1 stands?
(push 1)
(set-info :status sat)
(assert
  |13.1 stands on admission|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 13.2 stands?
(push 1)
(set-info :status sat)
(assert
  |13.2 stands on admission|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 13.3 stands?
(push 1)
(set-info :status sat)
(assert
  |13.3 stands on admission|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 13.4 stands?
(push 1)
(set-info :status sat)
(assert
  |13.4 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 13.5 stands?
(push 1)
(set-info :status sat)
(assert
  |13.5 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.1 stands?
(push 1)
(set-info :status sat)
(assert
  (or |14.1 stands on play| |14.1 stands on duties|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.2 stands?
(push 1)
(set-info :status sat)
(assert
  (or |14.2 stands on result| |14.2 stands on duties|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.3 stands?
(push 1)
(set-info :status sat)
(assert
  |14.3 stands on result|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.4 stands?
(push 1)
(set-info :status sat)
(assert
  |14.4 stands on result|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.5 stands?
(push 1)
(set-info :status sat)
(assert
  |14.5 stands on result|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.6 stands?
(push 1)
(set-info :status sat)
(assert
  |14.6 stands on result|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 14.7 stands?
(push 1)
(set-info :status sat)
(assert
  |14.7 stands on result|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 15.1 stands?
(push 1)
(set-info :status sat)
(assert
  |15.1 stands on coach|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 15.2 stands?
(push 1)
(set-info :status sat)
(assert
  |15.2 stands on coach|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 15.3 stands?
(push 1)
(set-info :status sat)
(assert
  |15.3 stands on coach|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 15.4 stands?
(push 1)
(set-info :status sat)
(assert
  |15.4 stands on coach|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 15.5 stands?
(push 1)
(set-info :status sat)
(assert
  (or |15.5 stands on coach| |15.5 stands on duties|))
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 15.6 stands?
(push 1)
(set-info :status sat)
(assert
  |15.6 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 16.1 stands?
(push 1)
(set-info :status sat)
(assert
  |16.1 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 16.2 stands?
(push 1)
(set-info :status sat)
(assert
  |16.2 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 16.3 stands?
(push 1)
(set-info :status sat)
(assert
  |16.3 stands on play|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 17.1 stands?
(push 1)
(set-info :status sat)
(assert
  |17.1 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 17.2 stands?
(push 1)
(set-info :status sat)
(assert
  |17.2 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 17.3 stands?
(push 1)
(set-info :status sat)
(assert
  |17.3 stands on deserved|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 17.4 stands?
(push 1)
(set-info :status sat)
(assert
  |17.4 stands on penalty|)
(check-sat)
(pop 1)
