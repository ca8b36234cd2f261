; Dart throw of the Island Athletics League, edition 2031
; In no scenario may the ruling on dart come out as more than one value.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.
; matter: 0 control, 1 throw
(declare-const |matter| Int)
(assert (<= 0 |matter| 1))
; category: 0 women, 1 men, 2 under_16
(declare-const |category| Int)
(assert (<= 0 |category| 2))
; weight: 450 + 1 * the number, g
(declare-const |weight| Int)
(assert (<= 0 |weight| 400))
; length: 1.9 + 0.01 * the number, m
(declare-const |length| Int)
(assert (<= 0 |length| 90))
(declare-const |damaged| Bool)

; What the names stand for, each after what it rests on.
(define-fun |damaged is asked| () Bool
  (= |matter| 0))
(define-fun |length is asked| () Bool
  (= |matter| 0))
(define-fun |weight is asked| () Bool
  (= |matter| 0))
(define-fun |1.4 is met| () Bool
  (and
    (= |matter| 0)
    (not
      (or
        (and (= |category| 0) (and |weight is asked| (<= 0 |weight| 149)))
        (and (= |category| 1) (and |weight is asked| (<= 0 |weight| 349)))
        (and (= |category| 2) (and |weight is asked| (<= 0 |weight| 49)))))
    (not
      (or
        (and (= |category| 0) (and |length is asked| (<= 0 |length| 29)))
        (and (= |category| 1) (and |length is asked| (<= 0 |length| 69)))
        (and (= |category| 2) (and |length is asked| (<= 0 |length| 9)))))
    (not
      (or
        (and (= |category| 0) (and |length is asked| (<= 41 |length| 90)))
        (and (= |category| 1) (and |length is asked| (<= 81 |length| 90)))))
    (not (and |damaged is asked| |damaged|))))
(define-fun |1.4 is in force| () Bool
  |1.4 is met|)
(define-fun |1.4 stands on dart| () Bool
  |1.4 is in force|)
(define-fun |1.3 is met| () Bool
  (and (= |matter| 0) (and |damaged is asked| |damaged|)))
(define-fun |1.3 is in force| () Bool
  |1.3 is met|)
(define-fun |1.3 stands on dart| () Bool
  |1.3 is in force|)
(define-fun |1.2 is met| () Bool
  (and
    (= |matter| 0)
    (or
      (and (= |category| 0) (and |length is asked| (<= 0 |length| 29)))
      (and (= |category| 1) (and |length is asked| (<= 0 |length| 69)))
      (and (= |category| 2) (and |length is asked| (<= 0 |length| 9)))
      (and (= |category| 0) (and |length is asked| (<= 41 |length| 90)))
      (and (= |category| 1) (and |length is asked| (<= 81 |length| 90))))))
(define-fun |1.2 is in force| () Bool
  |1.2 is met|)
(define-fun |1.2 stands on dart| () Bool
  |1.2 is in force|)
(define-fun |1.1 is met| () Bool
  (and
    (= |matter| 0)
    (or
      (and (= |category| 0) (and |weight is asked| (<= 0 |weight| 149)))
      (and (= |category| 1) (and |weight is asked| (<= 0 |weight| 349)))
      (and (= |category| 2) (and |weight is asked| (<= 0 |weight| 49))))))
(define-fun |1.1 is in force| () Bool
  |1.1 is met|)
(define-fun |1.1 stands on dart| () Bool
  |1.1 is in force|)
(define-fun |dart may be rejected| () Bool
  (and
    (or |1.1 stands on dart| |1.2 stands on dart| |1.3 stands on dart|)
    (not |1.4 stands on dart|)))
(define-fun |dart may be accepted| () Bool
  (and
    |1.4 stands on dart|
    (not (or |1.1 stands on dart| |1.2 stands on dart| |1.3 stands on dart|))))
(define-fun |the background is kept| () Bool
  true)

; What isn't asked has no value; it is pinned to no, zero, or the empty set.
(assert (or |weight is asked| (= |weight| 0)))
(assert (or |length is asked| (= |length| 0)))
(assert (=> |damaged| |damaged is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the ruling on dart may come out as more than one value?
(set-info :status unsat)
(assert
  (and |dart may be accepted| |dart may be rejected|))
(check-sat)
