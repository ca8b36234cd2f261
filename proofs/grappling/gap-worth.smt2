; Contest rules of the Lowland Grappling Union, edition 2031
; In every scenario in which a ruling on worth is due, one is given.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.
; matter: 0 technique, 1 conduct, 2 edge, 3 dress, 4 injury, 5 chair
(declare-const |matter| Int)
(assert (<= 0 |matter| 5))
; category: 0 youth, 1 senior, 2 veteran
(declare-const |category| Int)
(assert (<= 0 |category| 2))
; phase: 0 standing, 1 going_down, 2 ground, 3 rising
(declare-const |phase| Int)
(assert (<= 0 |phase| 3))
(declare-const |after_call| Bool)
; action: 0 grip, 1 throw, 2 lock, 3 strangle, 4 hold_down, 5 lift
(declare-const |action| Int)
(assert (<= 0 |action| 5))
(declare-const |submission| Bool)
; landing: 0 front, 1 side, 2 back_part, 3 full_back
(declare-const |landing| Int)
(assert (<= 0 |landing| 3))
; control: 0 little, 1 fair, 2 full
(declare-const |control| Int)
(assert (<= 0 |control| 2))
; seconds_held: 0 + 1 * the number, s
(declare-const |seconds_held| Int)
(assert (<= 0 |seconds_held| 20))
; left_by: 0 own_step, 1 push, 2 technique
(declare-const |left_by| Int)
(assert (<= 0 |left_by| 2))
(declare-const |still_inside includes attacker| Bool)
(declare-const |still_inside includes defender| Bool)

; What the names stand for, each after what it rests on.
(define-fun |silence on worth is a gap| () Bool
  false)
(define-fun |after_call is asked| () Bool
  (or (= |matter| 0) (= |matter| 1)))
(define-fun |16.1 is met| () Bool
  (and |after_call is asked| |after_call|))
(define-fun |16.1 is in force| () Bool
  |16.1 is met|)
(define-fun |action is asked| () Bool
  (= |matter| 0))
(define-fun |submission is asked| () Bool
  (and |action is asked| (or (= |action| 2) (= |action| 3))))
(define-fun |10.1 is met| () Bool
  (and |submission is asked| |submission|))
(define-fun |10.1 is in force| () Bool
  (and |10.1 is met| (not |16.1 is in force|)))
(define-fun |seconds_held is asked| () Bool
  (and |action is asked| (= |action| 4)))
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
(define-fun |9.1 is met| () Bool
  (and
    (and |action is asked| (= |action| 4))
    (or
      (and (= |category| 0) (and |seconds_held is asked| (<= 15 |seconds_held| 20)))
      (and (= |category| 1) (and |seconds_held is asked| (<= 20 |seconds_held| 20)))
      (and (= |category| 2) (and |seconds_held is asked| (<= 20 |seconds_held| 20))))))
(define-fun |9.1 is in force| () Bool
  |9.1 is met|)
(define-fun |control is asked| () Bool
  (and |action is asked| (= |action| 1)))
(define-fun |landing is asked| () Bool
  (and |action is asked| (= |action| 1)))
(define-fun |phase is asked| () Bool
  (or (= |matter| 0) (= |matter| 2)))
(define-fun |3.4 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    (and |phase is asked| (= |phase| 3))
    (and |landing is asked| (= |landing| 3))
    (and |control is asked| (= |control| 2))))
(define-fun |3.4 is in force| () Bool
  |3.4 is met|)
(define-fun |from_standing is true| () Bool
  (and |phase is asked| (or (= |phase| 0) (= |phase| 1))))
(define-fun |3.3 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    |from_standing is true|
    (and |landing is asked| (or (= |landing| 1) (= |landing| 2)))
    (and |control is asked| (or (= |control| 1) (= |control| 2)))))
(define-fun |3.3 is in force| () Bool
  |3.3 is met|)
(define-fun |3.2 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    |from_standing is true|
    (and |landing is asked| (= |landing| 3))
    (and |control is asked| (= |control| 1))))
(define-fun |3.2 is in force| () Bool
  |3.2 is met|)
(define-fun |3.1 is met| () Bool
  (and
    (and |action is asked| (= |action| 1))
    |from_standing is true|
    (and |landing is asked| (= |landing| 3))
    (and |control is asked| (= |control| 2))))
(define-fun |3.1 is in force| () Bool
  |3.1 is met|)
(define-fun |a clause speaks on worth| () Bool
  (or
    |3.1 is in force|
    |3.2 is in force|
    |3.3 is in force|
    |3.4 is in force|
    |9.1 is in force|
    |9.2 is in force|
    |10.1 is in force|))
(define-fun |there is a gap in worth| () Bool
  (and |silence on worth is a gap| (not |a clause speaks on worth|)))
(define-fun |still_inside is asked| () Bool
  (= |matter| 2))
(define-fun |left_by is asked| () Bool
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
(assert (or |phase is asked| (= |phase| 0)))
(assert (=> |after_call| |after_call is asked|))
(assert (or |action is asked| (= |action| 0)))
(assert (=> |submission| |submission is asked|))
(assert (or |landing is asked| (= |landing| 0)))
(assert (or |control is asked| (= |control| 0)))
(assert (or |seconds_held is asked| (= |seconds_held| 0)))
(assert (or |left_by is asked| (= |left_by| 0)))
(assert (=> |still_inside includes attacker| |still_inside is asked|))
(assert (=> |still_inside includes defender| |still_inside is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which a ruling is due on worth and none is given?
(set-info :status unsat)
(assert
  |there is a gap in worth|)
(check-sat)
