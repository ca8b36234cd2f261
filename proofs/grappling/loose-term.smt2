; Contest rules of the Lowland Grappling Union, edition 2031
; The narrow reading of every vague term lies within its broad one.
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
; left_hand: 0 left_side, 1 right_side, 2 belt, 3 inside_cuff
(declare-const |left_hand| Int)
(assert (<= 0 |left_hand| 3))
; right_hand: 0 left_side, 1 right_side, 2 belt, 3 inside_cuff
(declare-const |right_hand| Int)
(assert (<= 0 |right_hand| 3))
; seconds_gripped: 0 + 1 * the number, s
(declare-const |seconds_gripped| Int)
(assert (<= 0 |seconds_gripped| 8))
; conduct: 0 eye, 1 strike, 2 finger_bend, 3 face, 4 feint, 5 insult
(declare-const |conduct| Int)
(assert (<= 0 |conduct| 5))
; force: 0 light, 1 firm, 2 full
(declare-const |force| Int)
(assert (<= 0 |force| 2))
; left_by: 0 own_step, 1 push, 2 technique
(declare-const |left_by| Int)
(assert (<= 0 |left_by| 2))
(declare-const |still_inside includes attacker| Bool)
(declare-const |still_inside includes defender| Bool)

; What the names stand for, each after what it rests on.
(define-fun |conduct is asked| () Bool
  (= |matter| 1))
(define-fun |force is asked| () Bool
  (and |conduct is asked| (or (= |conduct| 0) (= |conduct| 1))))
(define-fun |action is asked| () Bool
  (= |matter| 0))
(define-fun |right_hand is asked| () Bool
  (and |action is asked| (= |action| 0)))
(define-fun |left_hand is asked| () Bool
  (and |action is asked| (= |action| 0)))
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
(define-fun |still_inside is asked| () Bool
  (= |matter| 2))
(define-fun |left_by is asked| () Bool
  (= |matter| 2))
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
(assert (or |left_hand is asked| (= |left_hand| 0)))
(assert (or |right_hand is asked| (= |right_hand| 0)))
(assert (or |seconds_gripped is asked| (= |seconds_gripped| 0)))
(assert (or |conduct is asked| (= |conduct| 0)))
(assert (or |force is asked| (= |force| 0)))
(assert (or |left_by is asked| (= |left_by| 0)))
(assert (=> |still_inside includes attacker| |still_inside is asked|))
(assert (=> |still_inside includes defender| |still_inside is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the narrow reading of some vague term is true and its broad one is not?
(set-info :status unsat)
(assert
  (or
    (and
      (and |seconds_gripped is asked| (<= 0 |seconds_gripped| 3))
      (not (and |seconds_gripped is asked| (<= 0 |seconds_gripped| 5))))
    (and
      (and |force is asked| (= |force| 2))
      (not (and |force is asked| (or (= |force| 1) (= |force| 2)))))))
(check-sat)
