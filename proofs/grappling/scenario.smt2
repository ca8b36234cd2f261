; Contest rules of the Lowland Grappling Union, edition 2031
; There is a scenario: what holds in all of them is not said of nothing.
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

; What the names stand for, each after what it rests on.
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

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the background is kept?
(set-info :status sat)
(assert
  true)
(check-sat)
