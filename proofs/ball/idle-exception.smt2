; Rules of wall rally, edition 2031
; Something turns on each exception and each reference of each clause that changes a ruling.
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
; struck_by: 0 server, 1 receiver
(declare-const |struck_by| Int)
(assert (<= 0 |struck_by| 1))
(declare-const |serve| Bool)
(declare-const |foot_over| Bool)
; ball: 0 good, 1 out, 2 low
(declare-const |ball| Int)
(assert (<= 0 |ball| 2))
; strokes: 1 + 1 * the number
(declare-const |strokes| Int)
(assert (<= 0 |strokes| 3))
(declare-const |let_called| Bool)

; What the names stand for, each after what it rests on.
(define-fun |let_called is asked| () Bool
  (= |matter| 1))
(define-fun |2.5 is met| () Bool
  (and (= |matter| 1) (and |let_called is asked| |let_called|)))
(define-fun |2.5 is in force| () Bool
  |2.5 is met|)
(define-fun |2.5 stands on point| () Bool
  |2.5 is in force|)
(define-fun |struck_by is asked| () Bool
  (= |matter| 1))
(define-fun |strokes is asked| () Bool
  (= |matter| 1))
(define-fun |ball is asked| () Bool
  (= |matter| 1))
(define-fun |serve is asked| () Bool
  (and |struck_by is asked| (= |struck_by| 0)))
(define-fun |foot_over is asked| () Bool
  (and |serve is asked| |serve|))
(define-fun |bad_stroke is true| () Bool
  (or
    (and |ball is asked| (or (= |ball| 1) (= |ball| 2)))
    (and |strokes is asked| (<= 3 |strokes| 3))
    (and |foot_over is asked| |foot_over|)))
(define-fun |2.4 is met| () Bool
  (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)) (not |bad_stroke is true|)))
(define-fun |2.4 is in force| () Bool
  |2.4 is met|)
(define-fun |2.4 stands on point| () Bool
  (and |2.4 is in force| (not |2.5 is in force|)))
(define-fun |2.3 is met| () Bool
  (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)) |bad_stroke is true|))
(define-fun |2.3 is in force| () Bool
  |2.3 is met|)
(define-fun |2.3 stands on point| () Bool
  (and |2.3 is in force| (not |2.5 is in force|)))
(define-fun |2.2 is met| () Bool
  (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)) (not |bad_stroke is true|)))
(define-fun |2.2 is in force| () Bool
  |2.2 is met|)
(define-fun |2.2 stands on point| () Bool
  (and |2.2 is in force| (not |2.5 is in force|)))
(define-fun |2.1 is met| () Bool
  (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)) |bad_stroke is true|))
(define-fun |2.1 is in force| () Bool
  |2.1 is met|)
(define-fun |2.1 stands on point| () Bool
  (and |2.1 is in force| (not |2.5 is in force|)))
(define-fun |point may be nobody| () Bool
  (and
    |2.5 stands on point|
    (not
      (or |2.1 stands on point| |2.2 stands on point| |2.3 stands on point| |2.4 stands on point|))))
(define-fun |point may be receiver| () Bool
  (and
    (or |2.1 stands on point| |2.4 stands on point|)
    (not (or |2.2 stands on point| |2.3 stands on point| |2.5 stands on point|))))
(define-fun |point may be server| () Bool
  (and
    (or |2.2 stands on point| |2.3 stands on point|)
    (not (or |2.1 stands on point| |2.4 stands on point| |2.5 stands on point|))))
(define-fun |point is settled| () Bool
  (and
    (or |point may be server| |point may be receiver| |point may be nobody|)
    (not
      (<=
        2
        (+
          (ite |point may be server| 1 0)
          (ite |point may be receiver| 1 0)
          (ite |point may be nobody| 1 0))))))
(define-fun |3.1 is met| () Bool
  (and |point is settled| |point may be receiver|))
(define-fun |3.1 is in force| () Bool
  |3.1 is met|)
(define-fun |3.1 stands on service| () Bool
  |3.1 is in force|)
(define-fun |service may be passed| () Bool
  |3.1 stands on service|)
(define-fun |silence on service is a gap| () Bool
  false)
(define-fun |a clause speaks on service| () Bool
  |3.1 is in force|)
(define-fun |service may be kept| () Bool
  (and (not |a clause speaks on service|) (not |silence on service is a gap|)))
(define-fun |service is settled| () Bool
  (and
    (or |service may be kept| |service may be passed|)
    (not (and |service may be kept| |service may be passed|))))
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
(define-fun |ends is settled| () Bool
  (and
    (or |ends may be kept| |ends may be changed|)
    (not (and |ends may be kept| |ends may be changed|))))
(define-fun |rulings clash on service| () Bool
  (and |a clause speaks on service| (not (or |service may be kept| |service may be passed|))))
(define-fun |a clause speaks on point| () Bool
  (or |2.1 is in force| |2.2 is in force| |2.3 is in force| |2.4 is in force| |2.5 is in force|))
(define-fun |rulings clash on point| () Bool
  (and
    |a clause speaks on point|
    (not (or |point may be server| |point may be receiver| |point may be nobody|))))
(define-fun |rulings clash on ends| () Bool
  (and |a clause speaks on ends| (not (or |ends may be kept| |ends may be changed|))))
(define-fun |a clause speaks on set| () Bool
  (or |1.1 is in force| |1.2 is in force| |1.3 is in force|))
(define-fun |rulings clash on set| () Bool
  (and |a clause speaks on set| (not (or |set may be goes_on| |set may be won|))))
(define-fun |there is a gap in service| () Bool
  (and |silence on service is a gap| (not |a clause speaks on service|)))
(define-fun |silence on point is a gap| () Bool
  (= |matter| 1))
(define-fun |there is a gap in point| () Bool
  (and |silence on point is a gap| (not |a clause speaks on point|)))
(define-fun |there is a gap in ends| () Bool
  (and |silence on ends is a gap| (not |a clause speaks on ends|)))
(define-fun |silence on set is a gap| () Bool
  (= |matter| 0))
(define-fun |there is a gap in set| () Bool
  (and |silence on set is a gap| (not |a clause speaks on set|)))
(define-fun |the background is kept| () Bool
  (and
    (not
      (and |trailer is asked| |leader is asked| (<= (+ (* (- 1) |trailer|) (* 1 |leader|)) (- 1))))
    (not (and |trailer is asked| (<= 20 |trailer| 20)))
    (not
      (and
        (and |leader is asked| (<= 16 |leader| 20))
        (and |leader is asked| |trailer is asked| (<= (+ (* (- 1) |leader|) (* 1 |trailer|)) (- 3)))))))

; The same with a small change made to the rules. Each question says which: they are counted in the
; order of the questions.
(declare-const |the change that is made| Int)
(define-fun |changed: 2.5 is met| () Bool
  (and (= |matter| 1) (and |let_called is asked| |let_called|)))
(define-fun |changed: 2.5 is in force| () Bool
  |changed: 2.5 is met|)
(define-fun |changed: 2.5 stands on point| () Bool
  |changed: 2.5 is in force|)
(define-fun |changed: 2.4 is met| () Bool
  (ite
    (= |the change that is made| 3)
    (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)))
    (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)) (not |bad_stroke is true|))))
(define-fun |changed: 2.4 is in force| () Bool
  |changed: 2.4 is met|)
(define-fun |changed: 2.4 stands on point| () Bool
  (ite
    (= |the change that is made| 4)
    |changed: 2.4 is in force|
    (and |changed: 2.4 is in force| (not |changed: 2.5 is in force|))))
(define-fun |changed: 2.3 is met| () Bool
  (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)) |bad_stroke is true|))
(define-fun |changed: 2.3 is in force| () Bool
  |changed: 2.3 is met|)
(define-fun |changed: 2.3 stands on point| () Bool
  (ite
    (= |the change that is made| 4)
    |changed: 2.3 is in force|
    (and |changed: 2.3 is in force| (not |changed: 2.5 is in force|))))
(define-fun |changed: 2.2 is met| () Bool
  (ite
    (= |the change that is made| 2)
    (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)))
    (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)) (not |bad_stroke is true|))))
(define-fun |changed: 2.2 is in force| () Bool
  |changed: 2.2 is met|)
(define-fun |changed: 2.2 stands on point| () Bool
  (ite
    (= |the change that is made| 4)
    |changed: 2.2 is in force|
    (and |changed: 2.2 is in force| (not |changed: 2.5 is in force|))))
(define-fun |changed: 2.1 is met| () Bool
  (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)) |bad_stroke is true|))
(define-fun |changed: 2.1 is in force| () Bool
  |changed: 2.1 is met|)
(define-fun |changed: 2.1 stands on point| () Bool
  (ite
    (= |the change that is made| 4)
    |changed: 2.1 is in force|
    (and |changed: 2.1 is in force| (not |changed: 2.5 is in force|))))
(define-fun |changed: point may be nobody| () Bool
  (and
    |changed: 2.5 stands on point|
    (not
      (or
        |changed: 2.1 stands on point|
        |changed: 2.2 stands on point|
        |changed: 2.3 stands on point|
        |changed: 2.4 stands on point|))))
(define-fun |changed: point may be receiver| () Bool
  (and
    (or |changed: 2.1 stands on point| |changed: 2.4 stands on point|)
    (not
      (or
        |changed: 2.2 stands on point|
        |changed: 2.3 stands on point|
        |changed: 2.5 stands on point|))))
(define-fun |changed: point may be server| () Bool
  (and
    (or |changed: 2.2 stands on point| |changed: 2.3 stands on point|)
    (not
      (or
        |changed: 2.1 stands on point|
        |changed: 2.4 stands on point|
        |changed: 2.5 stands on point|))))
(define-fun |changed: point is settled| () Bool
  (and
    (or
      |changed: point may be server|
      |changed: point may be receiver|
      |changed: point may be nobody|)
    (not
      (<=
        2
        (+
          (ite |changed: point may be server| 1 0)
          (ite |changed: point may be receiver| 1 0)
          (ite |changed: point may be nobody| 1 0))))))
(define-fun |changed: 3.1 is met| () Bool
  (and |changed: point is settled| |changed: point may be receiver|))
(define-fun |changed: 3.1 is in force| () Bool
  |changed: 3.1 is met|)
(define-fun |changed: 3.1 stands on service| () Bool
  |changed: 3.1 is in force|)
(define-fun |changed: service may be passed| () Bool
  |changed: 3.1 stands on service|)
(define-fun |changed: silence on service is a gap| () Bool
  false)
(define-fun |changed: a clause speaks on service| () Bool
  |changed: 3.1 is in force|)
(define-fun |changed: service may be kept| () Bool
  (and (not |changed: a clause speaks on service|) (not |changed: silence on service is a gap|)))
(define-fun |changed: service is settled| () Bool
  (and
    (or |changed: service may be kept| |changed: service may be passed|)
    (not (and |changed: service may be kept| |changed: service may be passed|))))
(define-fun |changed: 1.5 is met| () Bool
  (and
    (= |matter| 0)
    (and |last_set is asked| |last_set|)
    (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* 1 |trailer|)) 14))
    (and
      |leader is asked|
      |trailer is asked|
      (<= (+ (* (- 1) |leader|) (* (- 1) |trailer|)) (- 14)))))
(define-fun |changed: 1.5 is in force| () Bool
  |changed: 1.5 is met|)
(define-fun |changed: 1.5 stands on ends| () Bool
  |changed: 1.5 is in force|)
(define-fun |changed: 1.3 is met| () Bool
  (and (= |matter| 0) (and |leader is asked| (<= 20 |leader| 20))))
(define-fun |changed: 1.3 is in force| () Bool
  |changed: 1.3 is met|)
(define-fun |changed: 1.3 stands on set| () Bool
  |changed: 1.3 is in force|)
(define-fun |changed: 1.2 is met| () Bool
  (and
    (= |matter| 0)
    (or
      (and |leader is asked| (<= 0 |leader| 14))
      (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* (- 1) |trailer|)) 1)))))
(define-fun |changed: 1.2 is in force| () Bool
  |changed: 1.2 is met|)
(define-fun |changed: 1.2 stands on set| () Bool
  (ite
    (= |the change that is made| 1)
    |changed: 1.2 is in force|
    (and |changed: 1.2 is in force| (not |changed: 1.3 is in force|))))
(define-fun |changed: 1.1 is met| () Bool
  (and
    (= |matter| 0)
    (and |leader is asked| (<= 15 |leader| 20))
    (and |leader is asked| |trailer is asked| (<= (+ (* (- 1) |leader|) (* 1 |trailer|)) (- 2)))))
(define-fun |changed: 1.1 is in force| () Bool
  |changed: 1.1 is met|)
(define-fun |changed: 1.1 stands on set| () Bool
  |changed: 1.1 is in force|)
(define-fun |changed: set may be won| () Bool
  (and
    (or |changed: 1.1 stands on set| |changed: 1.3 stands on set|)
    (not |changed: 1.2 stands on set|)))
(define-fun |changed: set may be goes_on| () Bool
  (and
    |changed: 1.2 stands on set|
    (not (or |changed: 1.1 stands on set| |changed: 1.3 stands on set|))))
(define-fun |changed: set is settled| () Bool
  (and
    (or |changed: set may be goes_on| |changed: set may be won|)
    (not (and |changed: set may be goes_on| |changed: set may be won|))))
(define-fun |changed: 1.4 is met| () Bool
  (and
    (= |matter| 0)
    |changed: set is settled|
    |changed: set may be won|
    (and |last_set is asked| (not |last_set|))))
(define-fun |changed: 1.4 is in force| () Bool
  |changed: 1.4 is met|)
(define-fun |changed: 1.4 stands on ends| () Bool
  |changed: 1.4 is in force|)
(define-fun |changed: ends may be changed| () Bool
  (or |changed: 1.4 stands on ends| |changed: 1.5 stands on ends|))
(define-fun |changed: silence on ends is a gap| () Bool
  false)
(define-fun |changed: a clause speaks on ends| () Bool
  (or |changed: 1.4 is in force| |changed: 1.5 is in force|))
(define-fun |changed: ends may be kept| () Bool
  (and (not |changed: a clause speaks on ends|) (not |changed: silence on ends is a gap|)))
(define-fun |changed: ends is settled| () Bool
  (and
    (or |changed: ends may be kept| |changed: ends may be changed|)
    (not (and |changed: ends may be kept| |changed: ends may be changed|))))
(define-fun |changed: rulings clash on service| () Bool
  (and
    |changed: a clause speaks on service|
    (not (or |changed: service may be kept| |changed: service may be passed|))))
(define-fun |changed: a clause speaks on point| () Bool
  (or
    |changed: 2.1 is in force|
    |changed: 2.2 is in force|
    |changed: 2.3 is in force|
    |changed: 2.4 is in force|
    |changed: 2.5 is in force|))
(define-fun |changed: rulings clash on point| () Bool
  (and
    |changed: a clause speaks on point|
    (not
      (or
        |changed: point may be server|
        |changed: point may be receiver|
        |changed: point may be nobody|))))
(define-fun |changed: rulings clash on ends| () Bool
  (and
    |changed: a clause speaks on ends|
    (not (or |changed: ends may be kept| |changed: ends may be changed|))))
(define-fun |changed: a clause speaks on set| () Bool
  (or |changed: 1.1 is in force| |changed: 1.2 is in force| |changed: 1.3 is in force|))
(define-fun |changed: rulings clash on set| () Bool
  (and
    |changed: a clause speaks on set|
    (not (or |changed: set may be goes_on| |changed: set may be won|))))
(define-fun |changed: there is a gap in service| () Bool
  (and |changed: silence on service is a gap| (not |changed: a clause speaks on service|)))
(define-fun |changed: silence on point is a gap| () Bool
  (= |matter| 1))
(define-fun |changed: there is a gap in point| () Bool
  (and |changed: silence on point is a gap| (not |changed: a clause speaks on point|)))
(define-fun |changed: there is a gap in ends| () Bool
  (and |changed: silence on ends is a gap| (not |changed: a clause speaks on ends|)))
(define-fun |changed: silence on set is a gap| () Bool
  (= |matter| 0))
(define-fun |changed: there is a gap in set| () Bool
  (and |changed: silence on set is a gap| (not |changed: a clause speaks on set|)))
(define-fun |changed: set differs| () Bool
  (or
    (xor |set may be goes_on| |changed: set may be goes_on|)
    (xor |set may be won| |changed: set may be won|)
    (xor |set is settled| |changed: set is settled|)
    (xor |there is a gap in set| |changed: there is a gap in set|)
    (xor |rulings clash on set| |changed: rulings clash on set|)))
(define-fun |changed: ends differs| () Bool
  (or
    (xor |ends may be kept| |changed: ends may be kept|)
    (xor |ends may be changed| |changed: ends may be changed|)
    (xor |ends is settled| |changed: ends is settled|)
    (xor |there is a gap in ends| |changed: there is a gap in ends|)
    (xor |rulings clash on ends| |changed: rulings clash on ends|)))
(define-fun |changed: point differs| () Bool
  (or
    (xor |point may be server| |changed: point may be server|)
    (xor |point may be receiver| |changed: point may be receiver|)
    (xor |point may be nobody| |changed: point may be nobody|)
    (xor |point is settled| |changed: point is settled|)
    (xor |there is a gap in point| |changed: there is a gap in point|)
    (xor |rulings clash on point| |changed: rulings clash on point|)))
(define-fun |changed: service differs| () Bool
  (or
    (xor |service may be kept| |changed: service may be kept|)
    (xor |service may be passed| |changed: service may be passed|)
    (xor |service is settled| |changed: service is settled|)
    (xor |there is a gap in service| |changed: there is a gap in service|)
    (xor |rulings clash on service| |changed: rulings clash on service|)))

; What isn't asked has no value; it is pinned to no, zero, or the empty set.
(assert (or |leader is asked| (= |leader| 0)))
(assert (or |trailer is asked| (= |trailer| 0)))
(assert (=> |last_set| |last_set is asked|))
(assert (or |struck_by is asked| (= |struck_by| 0)))
(assert (=> |serve| |serve is asked|))
(assert (=> |foot_over| |foot_over is asked|))
(assert (or |ball is asked| (= |ball| 0)))
(assert (or |strokes is asked| (= |strokes| 0)))
(assert (=> |let_called| |let_called is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which an announced ruling would be another without notwithstanding "1.2" of clause 1.3?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 1)
    |1.3 is in force|
    (or |changed: set differs| |changed: ends differs|)))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (bad_stroke) of clause 2.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 2)
    (or
      (and |2.2 is met| (not |changed: 2.2 is met|))
      (and (not |2.2 is met|) |changed: 2.2 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.2 is in force| (not |2.2 is met|) (not |changed: point may be server|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (bad_stroke) of clause 2.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 3)
    (or
      (and |2.4 is met| (not |changed: 2.4 is met|))
      (and (not |2.4 is met|) |changed: 2.4 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.4 is in force| (not |2.4 is met|) (not |changed: point may be receiver|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without notwithstanding "2" of clause 2.5?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 4)
    |2.5 is in force|
    (or |changed: point differs| |changed: service differs|)))
(check-sat)
(pop 1)
