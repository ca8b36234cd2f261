; Contest rules of the Lowland Grappling Union, edition 2031
; In no scenario do the rulings that stand on penalty contradict each other.
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
(define-fun |rulings clash on penalty| () Bool
  (and
    |a clause speaks on penalty|
    (not
      (or
        |penalty may be none|
        |penalty may be caution|
        |penalty may be second_caution|
        |penalty may be disqualification|))))
(define-fun |still_inside is asked| () Bool
  (= |matter| 2))
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
(assert (or |left_hand is asked| (= |left_hand| 0)))
(assert (or |right_hand is asked| (= |right_hand| 0)))
(assert (or |seconds_gripped is asked| (= |seconds_gripped| 0)))
(assert (or |seconds_without_attack is asked| (= |seconds_without_attack| 0)))
(assert (or |held_by is asked| (= |held_by| 0)))
(assert (or |joint is asked| (= |joint| 0)))
(assert (or |pressure is asked| (= |pressure| 0)))
(assert (=> |weight_dropped| |weight_dropped is asked|))
(assert (or |way_under is asked| (= |way_under| 0)))
(assert (or |entry is asked| (= |entry| 0)))
(assert (or |strangle_with is asked| (= |strangle_with| 0)))
(assert (or |leg_state is asked| (= |leg_state| 0)))
(assert (or |leg_held is asked| (= |leg_held| 0)))
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
(assert (=> |attack_at_once is read broadly| |attack_at_once is open to reading|))
(assert (=> |hard_contact is read broadly| |hard_contact is open to reading|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the rulings that stand on penalty have nothing in common?
(set-info :status unsat)
(assert
  |rulings clash on penalty|)
(check-sat)
