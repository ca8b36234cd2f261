; Contest rules of the Lowland Grappling Union, edition 2031
; In no scenario do the rulings that stand on coach contradict each other.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.
; matter: 0 technique, 1 conduct, 2 edge, 3 dress, 4 injury, 5 chair
(declare-const |matter| Int)
(assert (<= 0 |matter| 5))
; phase: 0 standing, 1 going_down, 2 ground, 3 rising
(declare-const |phase| Int)
(assert (<= 0 |phase| 3))
; action: 0 grip, 1 throw, 2 lock, 3 strangle, 4 hold_down, 5 lift
(declare-const |action| Int)
(assert (<= 0 |action| 5))
; left_by: 0 own_step, 1 push, 2 technique
(declare-const |left_by| Int)
(assert (<= 0 |left_by| 2))
(declare-const |still_inside includes attacker| Bool)
(declare-const |still_inside includes defender| Bool)
; coach_act: 0 advice_in_halt, 1 advice_in_play, 2 gesture, 3 abuse, 4 enters_mat
(declare-const |coach_act| Int)
(assert (<= 0 |coach_act| 4))
(declare-const |coach_warned| Bool)

; What the names stand for, each after what it rests on.
(define-fun |coach_act is asked| () Bool
  (= |matter| 5))
(define-fun |15.5 is met| () Bool
  (and (= |matter| 5) (and |coach_act is asked| (or (= |coach_act| 3) (= |coach_act| 4)))))
(define-fun |15.5 is in force| () Bool
  |15.5 is met|)
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
(define-fun |still_inside is asked| () Bool
  (= |matter| 2))
(define-fun |left_by is asked| () Bool
  (= |matter| 2))
(define-fun |action is asked| () Bool
  (= |matter| 0))
(define-fun |phase is asked| () Bool
  (or (= |matter| 0) (= |matter| 2)))
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
(assert (or |action is asked| (= |action| 0)))
(assert (or |left_by is asked| (= |left_by| 0)))
(assert (=> |still_inside includes attacker| |still_inside is asked|))
(assert (=> |still_inside includes defender| |still_inside is asked|))
(assert (or |coach_act is asked| (= |coach_act| 0)))
(assert (=> |coach_warned| |coach_warned is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the rulings that stand on coach have nothing in common?
(set-info :status unsat)
(assert
  |rulings clash on coach|)
(check-sat)
