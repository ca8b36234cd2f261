; Rules of wall rally, edition 2031
; In every scenario in which a ruling on service is due, one is given.
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
(define-fun |silence on service is a gap| () Bool
  false)
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
(define-fun |a clause speaks on service| () Bool
  |3.1 is in force|)
(define-fun |there is a gap in service| () Bool
  (and |silence on service is a gap| (not |a clause speaks on service|)))
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
(assert (or |struck_by is asked| (= |struck_by| 0)))
(assert (=> |serve| |serve is asked|))
(assert (=> |foot_over| |foot_over is asked|))
(assert (or |ball is asked| (= |ball| 0)))
(assert (or |strokes is asked| (= |strokes| 0)))
(assert (=> |let_called| |let_called is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which a ruling is due on service and none is given?
(set-info :status unsat)
(assert
  |there is a gap in service|)
(check-sat)
