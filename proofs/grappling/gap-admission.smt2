; Contest rules of the Lowland Grappling Union, edition 2031
; In every scenario in which a ruling on admission is due, one is given.
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
(declare-const |dress_faults includes belt| Bool)
(declare-const |dress_faults includes jacket| Bool)
(declare-const |dress_faults includes metal| Bool)
(declare-const |dress_faults includes nails| Bool)
(declare-const |dress_faults includes padding| Bool)
; sleeve_gap: 0 + 0.5 * the number, cm
(declare-const |sleeve_gap| Int)
(assert (<= 0 |sleeve_gap| 40))

; What the names stand for, each after what it rests on.
(define-fun |silence on admission is a gap| () Bool
  (= |matter| 3))
(define-fun |dress_faults is asked| () Bool
  (= |matter| 3))
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
(define-fun |a clause speaks on admission| () Bool
  (or |13.1 is in force| |13.2 is in force| |13.3 is in force|))
(define-fun |there is a gap in admission| () Bool
  (and |silence on admission is a gap| (not |a clause speaks on admission|)))
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
(assert (=> |dress_faults includes belt| |dress_faults is asked|))
(assert (=> |dress_faults includes jacket| |dress_faults is asked|))
(assert (=> |dress_faults includes metal| |dress_faults is asked|))
(assert (=> |dress_faults includes nails| |dress_faults is asked|))
(assert (=> |dress_faults includes padding| |dress_faults is asked|))
(assert (or |sleeve_gap is asked| (= |sleeve_gap| 0)))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which a ruling is due on admission and none is given?
(set-info :status unsat)
(assert
  |there is a gap in admission|)
(check-sat)
