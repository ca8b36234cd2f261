; Rules of wall rally, edition 2031
; Something turns on each part of the condition of each clause that changes a ruling.
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
(define-fun |sanction is settled| () Bool
  (and
    (or |sanction may be warning| |sanction may be point_lost| |sanction may be sent_off|)
    (not
      (<=
        2
        (+
          (ite |sanction may be warning| 1 0)
          (ite |sanction may be point_lost| 1 0)
          (ite |sanction may be sent_off| 1 0))))))
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
(define-fun |a clause speaks on sanction| () Bool
  (or |4.1 is in force| |4.2 is in force| |4.3 is in force| |4.4 is in force| |4.5 is in force|))
(define-fun |rulings clash on sanction| () Bool
  (and
    |a clause speaks on sanction|
    (not (or |sanction may be warning| |sanction may be point_lost| |sanction may be sent_off|))))
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
(define-fun |silence on sanction is a gap| () Bool
  (= |matter| 2))
(define-fun |there is a gap in sanction| () Bool
  (and |silence on sanction is a gap| (not |a clause speaks on sanction|)))
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
(define-fun |changed: 4.5 is met| () Bool
  (ite
    (= |the change that is made| 38)
    (= |matter| 2)
    (and (= |matter| 2) (and |offence is asked| (= |offence| 2)))))
(define-fun |changed: 4.5 is in force| () Bool
  |changed: 4.5 is met|)
(define-fun |changed: 4.5 stands on sanction| () Bool
  |changed: 4.5 is in force|)
(define-fun |changed: 4.4 is met| () Bool
  (ite
    (= |the change that is made| 37)
    (and (= |matter| 2) (and |offence is asked| (= |offence| 1)))
    (ite
      (= |the change that is made| 36)
      (and (= |matter| 2) (and |warned_before is asked| |warned_before|))
      (ite
        (= |the change that is made| 35)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |offence is asked| (= |offence| 1))
          (and |warned_before is asked| |warned_before|))))))
(define-fun |changed: 4.4 is in force| () Bool
  |changed: 4.4 is met|)
(define-fun |changed: 4.4 stands on sanction| () Bool
  |changed: 4.4 is in force|)
(define-fun |changed: 4.3 is met| () Bool
  (ite
    (= |the change that is made| 34)
    (and (= |matter| 2) (and |offence is asked| (= |offence| 1)))
    (ite
      (= |the change that is made| 33)
      (and (= |matter| 2) (and |warned_before is asked| (not |warned_before|)))
      (ite
        (= |the change that is made| 32)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |offence is asked| (= |offence| 1))
          (and |warned_before is asked| (not |warned_before|)))))))
(define-fun |changed: 4.3 is in force| () Bool
  |changed: 4.3 is met|)
(define-fun |changed: 4.3 stands on sanction| () Bool
  |changed: 4.3 is in force|)
(define-fun |changed: 4.2 is met| () Bool
  (ite
    (= |the change that is made| 31)
    (and (= |matter| 2) (and |offence is asked| (= |offence| 0)))
    (ite
      (= |the change that is made| 30)
      (and (= |matter| 2) (and |warned_before is asked| |warned_before|))
      (ite
        (= |the change that is made| 29)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |offence is asked| (= |offence| 0))
          (and |warned_before is asked| |warned_before|))))))
(define-fun |changed: 4.2 is in force| () Bool
  |changed: 4.2 is met|)
(define-fun |changed: 4.2 stands on sanction| () Bool
  |changed: 4.2 is in force|)
(define-fun |changed: 4.1 is met| () Bool
  (ite
    (= |the change that is made| 28)
    (and (= |matter| 2) (and |offence is asked| (= |offence| 0)))
    (ite
      (= |the change that is made| 27)
      (and (= |matter| 2) (and |warned_before is asked| (not |warned_before|)))
      (ite
        (= |the change that is made| 26)
        (= |matter| 2)
        (and
          (= |matter| 2)
          (and |offence is asked| (= |offence| 0))
          (and |warned_before is asked| (not |warned_before|)))))))
(define-fun |changed: 4.1 is in force| () Bool
  |changed: 4.1 is met|)
(define-fun |changed: 4.1 stands on sanction| () Bool
  |changed: 4.1 is in force|)
(define-fun |changed: sanction may be sent_off| () Bool
  (and
    (or |changed: 4.4 stands on sanction| |changed: 4.5 stands on sanction|)
    (not
      (or
        |changed: 4.1 stands on sanction|
        |changed: 4.2 stands on sanction|
        |changed: 4.3 stands on sanction|))))
(define-fun |changed: sanction may be point_lost| () Bool
  (and
    (or |changed: 4.2 stands on sanction| |changed: 4.3 stands on sanction|)
    (not
      (or
        |changed: 4.1 stands on sanction|
        |changed: 4.4 stands on sanction|
        |changed: 4.5 stands on sanction|))))
(define-fun |changed: sanction may be warning| () Bool
  (and
    |changed: 4.1 stands on sanction|
    (not
      (or
        |changed: 4.2 stands on sanction|
        |changed: 4.3 stands on sanction|
        |changed: 4.4 stands on sanction|
        |changed: 4.5 stands on sanction|))))
(define-fun |changed: sanction is settled| () Bool
  (and
    (or
      |changed: sanction may be warning|
      |changed: sanction may be point_lost|
      |changed: sanction may be sent_off|)
    (not
      (<=
        2
        (+
          (ite |changed: sanction may be warning| 1 0)
          (ite |changed: sanction may be point_lost| 1 0)
          (ite |changed: sanction may be sent_off| 1 0))))))
(define-fun |changed: 2.5 is met| () Bool
  (ite
    (= |the change that is made| 24)
    (= |matter| 1)
    (and (= |matter| 1) (and |let_called is asked| |let_called|))))
(define-fun |changed: 2.5 is in force| () Bool
  |changed: 2.5 is met|)
(define-fun |changed: 2.5 stands on point| () Bool
  |changed: 2.5 is in force|)
(define-fun |changed: 2.4 is met| () Bool
  (ite
    (= |the change that is made| 23)
    (and (= |matter| 1) (not |bad_stroke is true|))
    (ite
      (= |the change that is made| 22)
      (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)))
      (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)) (not |bad_stroke is true|)))))
(define-fun |changed: 2.4 is in force| () Bool
  |changed: 2.4 is met|)
(define-fun |changed: 2.4 stands on point| () Bool
  (and |changed: 2.4 is in force| (not |changed: 2.5 is in force|)))
(define-fun |changed: 2.3 is met| () Bool
  (ite
    (= |the change that is made| 21)
    (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)))
    (ite
      (= |the change that is made| 20)
      (and (= |matter| 1) |bad_stroke is true|)
      (ite
        (= |the change that is made| 19)
        (= |matter| 1)
        (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 1)) |bad_stroke is true|)))))
(define-fun |changed: 2.3 is in force| () Bool
  |changed: 2.3 is met|)
(define-fun |changed: 2.3 stands on point| () Bool
  (and |changed: 2.3 is in force| (not |changed: 2.5 is in force|)))
(define-fun |changed: 2.2 is met| () Bool
  (ite
    (= |the change that is made| 18)
    (and (= |matter| 1) (not |bad_stroke is true|))
    (ite
      (= |the change that is made| 17)
      (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)))
      (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)) (not |bad_stroke is true|)))))
(define-fun |changed: 2.2 is in force| () Bool
  |changed: 2.2 is met|)
(define-fun |changed: 2.2 stands on point| () Bool
  (and |changed: 2.2 is in force| (not |changed: 2.5 is in force|)))
(define-fun |changed: 2.1 is met| () Bool
  (ite
    (= |the change that is made| 16)
    (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)))
    (ite
      (= |the change that is made| 15)
      (and (= |matter| 1) |bad_stroke is true|)
      (ite
        (= |the change that is made| 14)
        (= |matter| 1)
        (and (= |matter| 1) (and |struck_by is asked| (= |struck_by| 0)) |bad_stroke is true|)))))
(define-fun |changed: 2.1 is in force| () Bool
  |changed: 2.1 is met|)
(define-fun |changed: 2.1 stands on point| () Bool
  (and |changed: 2.1 is in force| (not |changed: 2.5 is in force|)))
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
  (ite
    (= |the change that is made| 25)
    true
    (and |changed: point is settled| |changed: point may be receiver|)))
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
  (ite
    (= |the change that is made| 13)
    (and (= |matter| 0) (and |last_set is asked| |last_set|))
    (ite
      (= |the change that is made| 12)
      (and
        (= |matter| 0)
        (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* 1 |trailer|)) 14))
        (and
          |leader is asked|
          |trailer is asked|
          (<= (+ (* (- 1) |leader|) (* (- 1) |trailer|)) (- 14))))
      (ite
        (= |the change that is made| 11)
        (= |matter| 0)
        (and
          (= |matter| 0)
          (and |last_set is asked| |last_set|)
          (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* 1 |trailer|)) 14))
          (and
            |leader is asked|
            |trailer is asked|
            (<= (+ (* (- 1) |leader|) (* (- 1) |trailer|)) (- 14))))))))
(define-fun |changed: 1.5 is in force| () Bool
  |changed: 1.5 is met|)
(define-fun |changed: 1.5 stands on ends| () Bool
  |changed: 1.5 is in force|)
(define-fun |changed: 1.3 is met| () Bool
  (ite
    (= |the change that is made| 7)
    (= |matter| 0)
    (and (= |matter| 0) (and |leader is asked| (<= 20 |leader| 20)))))
(define-fun |changed: 1.3 is in force| () Bool
  |changed: 1.3 is met|)
(define-fun |changed: 1.3 stands on set| () Bool
  |changed: 1.3 is in force|)
(define-fun |changed: 1.2 is met| () Bool
  (ite
    (= |the change that is made| 6)
    (and (= |matter| 0) (and |leader is asked| (<= 0 |leader| 14)))
    (ite
      (= |the change that is made| 5)
      (and
        (= |matter| 0)
        (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* (- 1) |trailer|)) 1)))
      (ite
        (= |the change that is made| 4)
        (= |matter| 0)
        (and
          (= |matter| 0)
          (or
            (and |leader is asked| (<= 0 |leader| 14))
            (and |leader is asked| |trailer is asked| (<= (+ (* 1 |leader|) (* (- 1) |trailer|)) 1))))))))
(define-fun |changed: 1.2 is in force| () Bool
  |changed: 1.2 is met|)
(define-fun |changed: 1.2 stands on set| () Bool
  (and |changed: 1.2 is in force| (not |changed: 1.3 is in force|)))
(define-fun |changed: 1.1 is met| () Bool
  (ite
    (= |the change that is made| 3)
    (and (= |matter| 0) (and |leader is asked| (<= 15 |leader| 20)))
    (ite
      (= |the change that is made| 2)
      (and
        (= |matter| 0)
        (and |leader is asked| |trailer is asked| (<= (+ (* (- 1) |leader|) (* 1 |trailer|)) (- 2))))
      (ite
        (= |the change that is made| 1)
        (= |matter| 0)
        (and
          (= |matter| 0)
          (and |leader is asked| (<= 15 |leader| 20))
          (and
            |leader is asked|
            |trailer is asked|
            (<= (+ (* (- 1) |leader|) (* 1 |trailer|)) (- 2))))))))
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
  (ite
    (= |the change that is made| 10)
    (and (= |matter| 0) |changed: set is settled| |changed: set may be won|)
    (ite
      (= |the change that is made| 9)
      (and (= |matter| 0) (and |last_set is asked| (not |last_set|)))
      (ite
        (= |the change that is made| 8)
        (= |matter| 0)
        (and
          (= |matter| 0)
          |changed: set is settled|
          |changed: set may be won|
          (and |last_set is asked| (not |last_set|)))))))
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
(define-fun |changed: a clause speaks on sanction| () Bool
  (or
    |changed: 4.1 is in force|
    |changed: 4.2 is in force|
    |changed: 4.3 is in force|
    |changed: 4.4 is in force|
    |changed: 4.5 is in force|))
(define-fun |changed: rulings clash on sanction| () Bool
  (and
    |changed: a clause speaks on sanction|
    (not
      (or
        |changed: sanction may be warning|
        |changed: sanction may be point_lost|
        |changed: sanction may be sent_off|))))
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
(define-fun |changed: silence on sanction is a gap| () Bool
  (= |matter| 2))
(define-fun |changed: there is a gap in sanction| () Bool
  (and |changed: silence on sanction is a gap| (not |changed: a clause speaks on sanction|)))
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
(define-fun |changed: sanction differs| () Bool
  (or
    (xor |sanction may be warning| |changed: sanction may be warning|)
    (xor |sanction may be point_lost| |changed: sanction may be point_lost|)
    (xor |sanction may be sent_off| |changed: sanction may be sent_off|)
    (xor |sanction is settled| |changed: sanction is settled|)
    (xor |there is a gap in sanction| |changed: there is a gap in sanction|)
    (xor |rulings clash on sanction| |changed: rulings clash on sanction|)))

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
(assert (or |offence is asked| (= |offence| 0)))
(assert (=> |warned_before| |warned_before is asked|))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which an announced ruling would be another without part 2 (leader at least set_to and leader - trailer at least 2) of clause 1.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 1)
    (or
      (and |1.1 is met| (not |changed: 1.1 is met|))
      (and (not |1.1 is met|) |changed: 1.1 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.1 is in force| (not |1.1 is met|) (not |changed: set may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (leader at least set_to) of clause 1.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 2)
    (or
      (and |1.1 is met| (not |changed: 1.1 is met|))
      (and (not |1.1 is met|) |changed: 1.1 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.1 is in force| (not |1.1 is met|) (not |changed: set may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (leader - trailer at least 2) of clause 1.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 3)
    (or
      (and |1.1 is met| (not |changed: 1.1 is met|))
      (and (not |1.1 is met|) |changed: 1.1 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.1 is in force| (not |1.1 is met|) (not |changed: set may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (leader less than set_to or leader - trailer less than 2) of clause 1.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 4)
    (or
      (and |1.2 is met| (not |changed: 1.2 is met|))
      (and (not |1.2 is met|) |changed: 1.2 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.2 is in force| (not |1.2 is met|) (not |changed: set may be goes_on|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (leader less than set_to) of clause 1.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 5)
    (or
      (and |1.2 is met| (not |changed: 1.2 is met|))
      (and (not |1.2 is met|) |changed: 1.2 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.2 is in force| (not |1.2 is met|) (not |changed: set may be goes_on|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (leader - trailer less than 2) of clause 1.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 6)
    (or
      (and |1.2 is met| (not |changed: 1.2 is met|))
      (and (not |1.2 is met|) |changed: 1.2 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.2 is in force| (not |1.2 is met|) (not |changed: set may be goes_on|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (leader is cap) of clause 1.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 7)
    (or
      (and |1.3 is met| (not |changed: 1.3 is met|))
      (and (not |1.3 is met|) |changed: 1.3 is met|))
    (or
      |changed: set differs|
      |changed: ends differs|
      (and |changed: 1.3 is in force| (not |1.3 is met|) (not |changed: set may be won|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (set is won and not last_set) of clause 1.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 8)
    (or
      (and |1.4 is met| (not |changed: 1.4 is met|))
      (and (not |1.4 is met|) |changed: 1.4 is met|))
    (or
      |changed: ends differs|
      (and |changed: 1.4 is in force| (not |1.4 is met|) (not |changed: ends may be changed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (set is won) of clause 1.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 9)
    (or
      (and |1.4 is met| (not |changed: 1.4 is met|))
      (and (not |1.4 is met|) |changed: 1.4 is met|))
    (or
      |changed: ends differs|
      (and |changed: 1.4 is in force| (not |1.4 is met|) (not |changed: ends may be changed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not last_set) of clause 1.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 10)
    (or
      (and |1.4 is met| (not |changed: 1.4 is met|))
      (and (not |1.4 is met|) |changed: 1.4 is met|))
    (or
      |changed: ends differs|
      (and |changed: 1.4 is in force| (not |1.4 is met|) (not |changed: ends may be changed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (last_set and leader + trailer is 14) of clause 1.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 11)
    (or
      (and |1.5 is met| (not |changed: 1.5 is met|))
      (and (not |1.5 is met|) |changed: 1.5 is met|))
    (or
      |changed: ends differs|
      (and |changed: 1.5 is in force| (not |1.5 is met|) (not |changed: ends may be changed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (last_set) of clause 1.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 12)
    (or
      (and |1.5 is met| (not |changed: 1.5 is met|))
      (and (not |1.5 is met|) |changed: 1.5 is met|))
    (or
      |changed: ends differs|
      (and |changed: 1.5 is in force| (not |1.5 is met|) (not |changed: ends may be changed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (leader + trailer is 14) of clause 1.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 13)
    (or
      (and |1.5 is met| (not |changed: 1.5 is met|))
      (and (not |1.5 is met|) |changed: 1.5 is met|))
    (or
      |changed: ends differs|
      (and |changed: 1.5 is in force| (not |1.5 is met|) (not |changed: ends may be changed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (struck_by is server and bad_stroke) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 14)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: point may be receiver|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (struck_by is server) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 15)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: point may be receiver|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (bad_stroke) of clause 2.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 16)
    (or
      (and |2.1 is met| (not |changed: 2.1 is met|))
      (and (not |2.1 is met|) |changed: 2.1 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.1 is in force| (not |2.1 is met|) (not |changed: point may be receiver|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (bad_stroke) of clause 2.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 17)
    (or
      (and |2.2 is met| (not |changed: 2.2 is met|))
      (and (not |2.2 is met|) |changed: 2.2 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.2 is in force| (not |2.2 is met|) (not |changed: point may be server|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (struck_by is server) of clause 2.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 18)
    (or
      (and |2.2 is met| (not |changed: 2.2 is met|))
      (and (not |2.2 is met|) |changed: 2.2 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.2 is in force| (not |2.2 is met|) (not |changed: point may be server|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (struck_by is receiver and bad_stroke) of clause 2.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 19)
    (or
      (and |2.3 is met| (not |changed: 2.3 is met|))
      (and (not |2.3 is met|) |changed: 2.3 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.3 is in force| (not |2.3 is met|) (not |changed: point may be server|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (struck_by is receiver) of clause 2.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 20)
    (or
      (and |2.3 is met| (not |changed: 2.3 is met|))
      (and (not |2.3 is met|) |changed: 2.3 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.3 is in force| (not |2.3 is met|) (not |changed: point may be server|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (bad_stroke) of clause 2.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 21)
    (or
      (and |2.3 is met| (not |changed: 2.3 is met|))
      (and (not |2.3 is met|) |changed: 2.3 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.3 is in force| (not |2.3 is met|) (not |changed: point may be server|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 3 (bad_stroke) of clause 2.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 22)
    (or
      (and |2.4 is met| (not |changed: 2.4 is met|))
      (and (not |2.4 is met|) |changed: 2.4 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.4 is in force| (not |2.4 is met|) (not |changed: point may be receiver|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (struck_by is receiver) of clause 2.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 23)
    (or
      (and |2.4 is met| (not |changed: 2.4 is met|))
      (and (not |2.4 is met|) |changed: 2.4 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.4 is in force| (not |2.4 is met|) (not |changed: point may be receiver|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (let_called) of clause 2.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 24)
    (or
      (and |2.5 is met| (not |changed: 2.5 is met|))
      (and (not |2.5 is met|) |changed: 2.5 is met|))
    (or
      |changed: point differs|
      |changed: service differs|
      (and |changed: 2.5 is in force| (not |2.5 is met|) (not |changed: point may be nobody|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without the condition (point is receiver) of clause 3.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 25)
    (or
      (and |3.1 is met| (not |changed: 3.1 is met|))
      (and (not |3.1 is met|) |changed: 3.1 is met|))
    (or
      |changed: service differs|
      (and |changed: 3.1 is in force| (not |3.1 is met|) (not |changed: service may be passed|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (offence is delay and not warned_before) of clause 4.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 26)
    (or
      (and |4.1 is met| (not |changed: 4.1 is met|))
      (and (not |4.1 is met|) |changed: 4.1 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.1 is in force| (not |4.1 is met|) (not |changed: sanction may be warning|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (offence is delay) of clause 4.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 27)
    (or
      (and |4.1 is met| (not |changed: 4.1 is met|))
      (and (not |4.1 is met|) |changed: 4.1 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.1 is in force| (not |4.1 is met|) (not |changed: sanction may be warning|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not warned_before) of clause 4.1, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 28)
    (or
      (and |4.1 is met| (not |changed: 4.1 is met|))
      (and (not |4.1 is met|) |changed: 4.1 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.1 is in force| (not |4.1 is met|) (not |changed: sanction may be warning|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (offence is delay and warned_before) of clause 4.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 29)
    (or
      (and |4.2 is met| (not |changed: 4.2 is met|))
      (and (not |4.2 is met|) |changed: 4.2 is met|))
    (or
      |changed: sanction differs|
      (and
        |changed: 4.2 is in force|
        (not |4.2 is met|)
        (not |changed: sanction may be point_lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (offence is delay) of clause 4.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 30)
    (or
      (and |4.2 is met| (not |changed: 4.2 is met|))
      (and (not |4.2 is met|) |changed: 4.2 is met|))
    (or
      |changed: sanction differs|
      (and
        |changed: 4.2 is in force|
        (not |4.2 is met|)
        (not |changed: sanction may be point_lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (warned_before) of clause 4.2, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 31)
    (or
      (and |4.2 is met| (not |changed: 4.2 is met|))
      (and (not |4.2 is met|) |changed: 4.2 is met|))
    (or
      |changed: sanction differs|
      (and
        |changed: 4.2 is in force|
        (not |4.2 is met|)
        (not |changed: sanction may be point_lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (offence is abuse and not warned_before) of clause 4.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 32)
    (or
      (and |4.3 is met| (not |changed: 4.3 is met|))
      (and (not |4.3 is met|) |changed: 4.3 is met|))
    (or
      |changed: sanction differs|
      (and
        |changed: 4.3 is in force|
        (not |4.3 is met|)
        (not |changed: sanction may be point_lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (offence is abuse) of clause 4.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 33)
    (or
      (and |4.3 is met| (not |changed: 4.3 is met|))
      (and (not |4.3 is met|) |changed: 4.3 is met|))
    (or
      |changed: sanction differs|
      (and
        |changed: 4.3 is in force|
        (not |4.3 is met|)
        (not |changed: sanction may be point_lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (not warned_before) of clause 4.3, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 34)
    (or
      (and |4.3 is met| (not |changed: 4.3 is met|))
      (and (not |4.3 is met|) |changed: 4.3 is met|))
    (or
      |changed: sanction differs|
      (and
        |changed: 4.3 is in force|
        (not |4.3 is met|)
        (not |changed: sanction may be point_lost|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (offence is abuse and warned_before) of clause 4.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 35)
    (or
      (and |4.4 is met| (not |changed: 4.4 is met|))
      (and (not |4.4 is met|) |changed: 4.4 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.4 is in force| (not |4.4 is met|) (not |changed: sanction may be sent_off|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.1 (offence is abuse) of clause 4.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 36)
    (or
      (and |4.4 is met| (not |changed: 4.4 is met|))
      (and (not |4.4 is met|) |changed: 4.4 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.4 is in force| (not |4.4 is met|) (not |changed: sanction may be sent_off|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2.2 (warned_before) of clause 4.4, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 37)
    (or
      (and |4.4 is met| (not |changed: 4.4 is met|))
      (and (not |4.4 is met|) |changed: 4.4 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.4 is in force| (not |4.4 is met|) (not |changed: sanction may be sent_off|)))))
(check-sat)
(pop 1)

; Is there a scenario in which an announced ruling would be another without part 2 (offence is threat) of clause 4.5, or the clause would say what isn't so?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 38)
    (or
      (and |4.5 is met| (not |changed: 4.5 is met|))
      (and (not |4.5 is met|) |changed: 4.5 is met|))
    (or
      |changed: sanction differs|
      (and |changed: 4.5 is in force| (not |4.5 is met|) (not |changed: sanction may be sent_off|)))))
(check-sat)
(pop 1)
