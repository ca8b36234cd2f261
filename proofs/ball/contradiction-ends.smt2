; Rules of wall rally, edition 2031
; In no scenario do the rulings that stand on ends contradict each other.
(set-info :smt-lib-version 2.6)
(set-logic QF_LIA)

; The facts of a scenario.
; matter: 0 score, 1 rally, 2 conduct
(declare-const |matter| Int)
(assert (<= 0 |matter| 2))
; leader: 0 + 1 * the number
(declare-const |leader| Int)
(assert (<= 0 |leader| 20))
; trailer: 0 + 1 * the number
(declare-const |trailer| Int)
(assert (<= 0 |trailer| 20))
(declare-const |last_set| Bool)

; What the names stand for, each after what it rests on.
(define-fun |last_set is asked| () Bool
  (= |matter| 0))
(define-fun |trailer is asked| () Bool
  (= |matter| 0))
(define-fun |leader is asked| () Bool
  (= |matter| 0))
(define-fun |1.5 is met| () Bool
  (and
    (= |matter| 0)
    (and |last_set is asked| |last_set|)
    (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* 1 |trailer|)) 14))
    (and
      |leader is asked|
      |trailer is asked|
      (<= (+ (* (- 1) |leader|) (* (- 1) |trailer|)) (- 14)))))
(define-fun |1.5 is in force| () Bool
  |1.5 is met|)
(define-fun |1.5 stands on ends| () Bool
  |1.5 is in force|)
(define-fun |1.3 is met| () Bool
  (and (= |matter| 0) (and |leader is asked| (<= 20 |leader| 20))))
(define-fun |1.3 is in force| () Bool
  |1.3 is met|)
(define-fun |1.3 stands on set| () Bool
  |1.3 is in force|)
(define-fun |1.2 is met| () Bool
  (and
    (= |matter| 0)
    (or
      (and |leader is asked| (<= 0 |leader| 14))
      (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* (- 1) |trailer|)) 1)))))
(define-fun |1.2 is in force| () Bool
  |1.2 is met|)
(define-fun |1.2 stands on set| () Bool
  (and |1.2 is in force| (not |1.3 is in force|)))
(define-fun |1.1 is met| () Bool
  (and
    (= |matter| 0)
    (and |leader is asked| (<= 15 |leader| 20))
    (and |leader is asked| |trailer is asked| (<= (+ (* (- 1) |leader|) (* 1 |trailer|)) (- 2)))))
(define-fun |1.1 is in force| () Bool
  |1.1 is met|)
(define-fun |1.1 stands on set| () Bool
  |1.1 is in force|)
(define-fun |set may be won| () Bool
  (and (or |1.1 stands on set| |1.3 stands on set|) (not |1.2 stands on set|)))
(define-fun |set may be goes_on| () Bool
  (and |1.2 stands on set| (not (or |1.1 stands on set| |1.3 stands on set|))))
(define-fun |set is settled| () Bool
  (and (or |set may be goes_on| |set may be won|) (not (and |set may be goes_on| |set may be won|))))
(define-fun |1.4 is met| () Bool
  (and (= |matter| 0) |set is settled| |set may be won| (and |last_set is asked| (not |last_set|))))
(define-fun |1.4 is in force| () Bool
  |1.4 is met|)
(define-fun |1.4 stands on ends| () Bool
  |1.4 is in force|)
(define-fun |ends may be changed| () Bool
  (or |1.4 stands on ends| |1.5 stands on ends|))
(define-fun |silence on ends is a gap| () Bool
  false)
(define-fun |a clause speaks on ends| () Bool
  (or |1.4 is in force| |1.5 is in force|))
(define-fun |ends may be kept| () Bool
  (and (not |a clause speaks on ends|) (not |silence on ends is a gap|)))
(define-fun |rulings clash on ends| () Bool
  (and |a clause speaks on ends| (not (or |ends may be kept| |ends may be changed|))))
(define-fun |the background is kept| () Bool
  (and
    (not
      (and |trailer is asked| |leader is asked| (<= (+ (* (- 1) |trailer|) (* 1 |leader|)) (- 1))))
    (not (and |trailer is asked| (<= 20 |trailer| 20)))
    (not
      (and
        (and |leader is asked| (<= 16 |leader| 20))
        (and |leader is asked| |trailer is asked| (<= (+ (* (- 1) |leader|) (* 1 |trailer|)) (- 3)))))))

; What isn't asked has no value; it is pinned to no, zero, or the empty set.
(assert (or |leader is asked| (= |leader| 0)))
(assert (or |trailer is asked| (= |trailer| 0)))
(assert (=> |last_set| |last_set is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the rulings that stand on ends have nothing in common?
(set-info :status unsat)
(assert
  |rulings clash on ends|)
(check-sat)
