; Rules of wall rally, edition 2031
; In no scenario do the rulings that stand on sanction contradict each other.
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
; offence: 0 delay, 1 abuse, 2 threat
(declare-const |offence| Int)
(assert (<= 0 |offence| 2))
(declare-const |warned_before| Bool)

; What the names stand for, each after what it rests on.
(define-fun |offence is asked| () Bool
  (= |matter| 2))
(define-fun |4.5 is met| () Bool
  (and (= |matter| 2) (and |offence is asked| (= |offence| 2))))
(define-fun |4.5 is in force| () Bool
  |4.5 is met|)
(define-fun |4.5 stands on sanction| () Bool
  |4.5 is in force|)
(define-fun |warned_before is asked| () Bool
  (= |matter| 2))
(define-fun |4.4 is met| () Bool
  (and
    (= |matter| 2)
    (and |offence is asked| (= |offence| 1))
    (and |warned_before is asked| |warned_before|)))
(define-fun |4.4 is in force| () Bool
  |4.4 is met|)
(define-fun |4.4 stands on sanction| () Bool
  |4.4 is in force|)
(define-fun |4.3 is met| () Bool
  (and
    (= |matter| 2)
    (and |offence is asked| (= |offence| 1))
    (and |warned_before is asked| (not |warned_before|))))
(define-fun |4.3 is in force| () Bool
  |4.3 is met|)
(define-fun |4.3 stands on sanction| () Bool
  |4.3 is in force|)
(define-fun |4.2 is met| () Bool
  (and
    (= |matter| 2)
    (and |offence is asked| (= |offence| 0))
    (and |warned_before is asked| |warned_before|)))
(define-fun |4.2 is in force| () Bool
  |4.2 is met|)
(define-fun |4.2 stands on sanction| () Bool
  |4.2 is in force|)
(define-fun |4.1 is met| () Bool
  (and
    (= |matter| 2)
    (and |offence is asked| (= |offence| 0))
    (and |warned_before is asked| (not |warned_before|))))
(define-fun |4.1 is in force| () Bool
  |4.1 is met|)
(define-fun |4.1 stands on sanction| () Bool
  |4.1 is in force|)
(define-fun |sanction may be sent_off| () Bool
  (and
    (or |4.4 stands on sanction| |4.5 stands on sanction|)
    (not (or |4.1 stands on sanction| |4.2 stands on sanction| |4.3 stands on sanction|))))
(define-fun |sanction may be point_lost| () Bool
  (and
    (or |4.2 stands on sanction| |4.3 stands on sanction|)
    (not (or |4.1 stands on sanction| |4.4 stands on sanction| |4.5 stands on sanction|))))
(define-fun |sanction may be warning| () Bool
  (and
    |4.1 stands on sanction|
    (not
      (or
        |4.2 stands on sanction|
        |4.3 stands on sanction|
        |4.4 stands on sanction|
        |4.5 stands on sanction|))))
(define-fun |a clause speaks on sanction| () Bool
  (or |4.1 is in force| |4.2 is in force| |4.3 is in force| |4.4 is in force| |4.5 is in force|))
(define-fun |rulings clash on sanction| () Bool
  (and
    |a clause speaks on sanction|
    (not (or |sanction may be warning| |sanction may be point_lost| |sanction may be sent_off|))))
(define-fun |trailer is asked| () Bool
  (= |matter| 0))
(define-fun |leader is asked| () Bool
  (= |matter| 0))
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
(assert (or |offence is asked| (= |offence| 0)))
(assert (=> |warned_before| |warned_before is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which the rulings that stand on sanction have nothing in common?
(set-info :status unsat)
(assert
  |rulings clash on sanction|)
(check-sat)
