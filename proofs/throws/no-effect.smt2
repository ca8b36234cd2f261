; Dart throw of the Island Athletics League, edition 2031
; For each clause that counts somewhere there is a scenario in which an announced ruling would be another without it.
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
; seconds_used: 0 + 1 * the number, s
(declare-const |seconds_used| Int)
(assert (<= 0 |seconds_used| 90))
; foot: 0 behind, 1 on_arc, 2 beyond
(declare-const |foot| Int)
(assert (<= 0 |foot| 2))
(declare-const |left_early| Bool)
; landing: 0 inside, 1 on_line, 2 outside
(declare-const |landing| Int)
(assert (<= 0 |landing| 2))
(declare-const |tip_first| Bool)
(declare-const |hindered| Bool)
(declare-const |keeps_attempt| Bool)
; distance: 0 + 0.01 * the number, m
(declare-const |distance| Int)
(assert (<= 0 |distance| 9000))
(declare-const |gauge| Bool)
; wind: -6 + 0.1 * the number
(declare-const |wind| Int)
(assert (<= 0 |wind| 120))

; What the names stand for, each after what it rests on.
(define-fun |landing is asked| () Bool
  (= |matter| 1))
(define-fun |distance is asked| () Bool
  (and |landing is asked| (= |landing| 0)))
(define-fun |hindered is asked| () Bool
  (= |matter| 1))
(define-fun |keeps_attempt is asked| () Bool
  (and |hindered is asked| |hindered|))
(define-fun |2.3 is met| () Bool
  (and
    (= |matter| 1)
    (and |hindered is asked| |hindered|)
    (not (and |keeps_attempt is asked| |keeps_attempt|))))
(define-fun |2.3 is in force| () Bool
  |2.3 is met|)
(define-fun |2.3 stands on attempt| () Bool
  |2.3 is in force|)
(define-fun |tip_first is asked| () Bool
  (= |matter| 1))
(define-fun |left_early is asked| () Bool
  (= |matter| 1))
(define-fun |foot is asked| () Bool
  (= |matter| 1))
(define-fun |seconds_used is asked| () Bool
  (= |matter| 1))
(define-fun |failed is false| () Bool
  (and
    (and |seconds_used is asked| (not (<= 61 |seconds_used| 90)))
    (and |foot is asked| (not (or (= |foot| 1) (= |foot| 2))))
    (and |left_early is asked| (not |left_early|))
    (and |landing is asked| (not (or (= |landing| 1) (= |landing| 2))))
    (and |tip_first is asked| |tip_first|)))
(define-fun |2.2 is met| () Bool
  (and (= |matter| 1) |failed is false|))
(define-fun |2.2 is in force| () Bool
  |2.2 is met|)
(define-fun |2.2 stands on attempt| () Bool
  (and |2.2 is in force| (not |2.3 is in force|)))
(define-fun |failed is true| () Bool
  (or
    (and |seconds_used is asked| (<= 61 |seconds_used| 90))
    (and |foot is asked| (or (= |foot| 1) (= |foot| 2)))
    (and |left_early is asked| |left_early|)
    (and |landing is asked| (or (= |landing| 1) (= |landing| 2)))
    (and |tip_first is asked| (not |tip_first|))))
(define-fun |2.1 is met| () Bool
  (and (= |matter| 1) |failed is true|))
(define-fun |2.1 is in force| () Bool
  |2.1 is met|)
(define-fun |2.1 stands on attempt| () Bool
  (and |2.1 is in force| (not |2.3 is in force|)))
(define-fun |attempt may be repeated| () Bool
  (and |2.3 stands on attempt| (not (or |2.1 stands on attempt| |2.2 stands on attempt|))))
(define-fun |attempt may be failure| () Bool
  (and |2.1 stands on attempt| (not (or |2.2 stands on attempt| |2.3 stands on attempt|))))
(define-fun |attempt may be valid| () Bool
  (and |2.2 stands on attempt| (not (or |2.1 stands on attempt| |2.3 stands on attempt|))))
(define-fun |attempt is settled| () Bool
  (and
    (or |attempt may be valid| |attempt may be failure| |attempt may be repeated|)
    (not
      (<=
        2
        (+
          (ite |attempt may be valid| 1 0)
          (ite |attempt may be failure| 1 0)
          (ite |attempt may be repeated| 1 0))))))
(define-fun |4.4 is met| () Bool
  (and
    |attempt is settled|
    |attempt may be valid|
    (or
      (and (= |category| 0) (and |distance is asked| (<= 0 |distance| 6125)))
      (and (= |category| 1) (and |distance is asked| (<= 0 |distance| 7890)))
      (and (= |category| 2) (and |distance is asked| (<= 0 |distance| 4975))))))
(define-fun |4.4 is in force| () Bool
  |4.4 is met|)
(define-fun |4.4 stands on record| () Bool
  |4.4 is in force|)
(define-fun |gauge is asked| () Bool
  (and |landing is asked| (= |landing| 0)))
(define-fun |4.3 is met| () Bool
  (and
    |attempt is settled|
    |attempt may be valid|
    (or
      (and (= |category| 0) (and |distance is asked| (<= 6126 |distance| 9000)))
      (and (= |category| 1) (and |distance is asked| (<= 7891 |distance| 9000)))
      (and (= |category| 2) (and |distance is asked| (<= 4976 |distance| 9000))))
    (and |gauge is asked| (not |gauge|))))
(define-fun |4.3 is in force| () Bool
  |4.3 is met|)
(define-fun |4.3 stands on record| () Bool
  |4.3 is in force|)
(define-fun |wind is asked| () Bool
  (and |gauge is asked| |gauge|))
(define-fun |4.2 is met| () Bool
  (and |attempt is settled| |attempt may be valid| (and |wind is asked| (<= 81 |wind| 120))))
(define-fun |4.2 is in force| () Bool
  |4.2 is met|)
(define-fun |4.2 stands on record| () Bool
  |4.2 is in force|)
(define-fun |4.1 is met| () Bool
  (and
    |attempt is settled|
    |attempt may be valid|
    (or
      (and (= |category| 0) (and |distance is asked| (<= 6126 |distance| 9000)))
      (and (= |category| 1) (and |distance is asked| (<= 7891 |distance| 9000)))
      (and (= |category| 2) (and |distance is asked| (<= 4976 |distance| 9000))))
    (and |wind is asked| (<= 0 |wind| 80))))
(define-fun |4.1 is in force| () Bool
  |4.1 is met|)
(define-fun |4.1 stands on record| () Bool
  |4.1 is in force|)
(define-fun |record may be refused| () Bool
  (and
    (or |4.2 stands on record| |4.4 stands on record|)
    (not (or |4.1 stands on record| |4.3 stands on record|))))
(define-fun |record may be kept_back| () Bool
  (and
    |4.3 stands on record|
    (not (or |4.1 stands on record| |4.2 stands on record| |4.4 stands on record|))))
(define-fun |record may be entered| () Bool
  (and
    |4.1 stands on record|
    (not (or |4.2 stands on record| |4.3 stands on record| |4.4 stands on record|))))
(define-fun |record is settled| () Bool
  (and
    (or |record may be entered| |record may be kept_back| |record may be refused|)
    (not
      (<=
        2
        (+
          (ite |record may be entered| 1 0)
          (ite |record may be kept_back| 1 0)
          (ite |record may be refused| 1 0))))))
(define-fun |silence on final is a gap| () Bool
  false)
(define-fun |3.3 is met| () Bool
  (and
    |attempt is settled|
    |attempt may be valid|
    (or
      (and (= |category| 0) (and |distance is asked| (<= 4850 |distance| 9000)))
      (and (= |category| 1) (and |distance is asked| (<= 6300 |distance| 9000)))
      (and (= |category| 2) (and |distance is asked| (<= 3800 |distance| 9000))))))
(define-fun |3.3 is in force| () Bool
  |3.3 is met|)
(define-fun |a clause speaks on final| () Bool
  |3.3 is in force|)
(define-fun |final may be not_reached| () Bool
  (and (not |a clause speaks on final|) (not |silence on final is a gap|)))
(define-fun |3.3 stands on final| () Bool
  |3.3 is in force|)
(define-fun |final may be reached| () Bool
  |3.3 stands on final|)
(define-fun |final is settled| () Bool
  (and
    (or |final may be reached| |final may be not_reached|)
    (not (and |final may be reached| |final may be not_reached|))))
(define-fun |3.2 is met| () Bool
  (and |attempt is settled| (or |attempt may be failure| |attempt may be repeated|)))
(define-fun |3.2 is in force| () Bool
  |3.2 is met|)
(define-fun |3.2 stands on mark| () Bool
  |3.2 is in force|)
(define-fun |3.1 is met| () Bool
  (and |attempt is settled| |attempt may be valid|))
(define-fun |3.1 is in force| () Bool
  |3.1 is met|)
(define-fun |3.1 stands on mark| () Bool
  |3.1 is in force|)
(define-fun |mark may be not_measured| () Bool
  (and |3.2 stands on mark| (not |3.1 stands on mark|)))
(define-fun |mark may be measured| () Bool
  (and |3.1 stands on mark| (not |3.2 stands on mark|)))
(define-fun |mark is settled| () Bool
  (and
    (or |mark may be measured| |mark may be not_measured|)
    (not (and |mark may be measured| |mark may be not_measured|))))
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
(define-fun |dart is settled| () Bool
  (and
    (or |dart may be accepted| |dart may be rejected|)
    (not (and |dart may be accepted| |dart may be rejected|))))
(define-fun |a clause speaks on record| () Bool
  (or |4.1 is in force| |4.2 is in force| |4.3 is in force| |4.4 is in force|))
(define-fun |rulings clash on record| () Bool
  (and
    |a clause speaks on record|
    (not (or |record may be entered| |record may be kept_back| |record may be refused|))))
(define-fun |rulings clash on final| () Bool
  (and |a clause speaks on final| (not (or |final may be reached| |final may be not_reached|))))
(define-fun |a clause speaks on mark| () Bool
  (or |3.1 is in force| |3.2 is in force|))
(define-fun |rulings clash on mark| () Bool
  (and |a clause speaks on mark| (not (or |mark may be measured| |mark may be not_measured|))))
(define-fun |a clause speaks on attempt| () Bool
  (or |2.1 is in force| |2.2 is in force| |2.3 is in force|))
(define-fun |rulings clash on attempt| () Bool
  (and
    |a clause speaks on attempt|
    (not (or |attempt may be valid| |attempt may be failure| |attempt may be repeated|))))
(define-fun |a clause speaks on dart| () Bool
  (or |1.1 is in force| |1.2 is in force| |1.3 is in force| |1.4 is in force|))
(define-fun |rulings clash on dart| () Bool
  (and |a clause speaks on dart| (not (or |dart may be accepted| |dart may be rejected|))))
(define-fun |silence on record is a gap| () Bool
  (and |attempt is settled| |attempt may be valid|))
(define-fun |there is a gap in record| () Bool
  (and |silence on record is a gap| (not |a clause speaks on record|)))
(define-fun |there is a gap in final| () Bool
  (and |silence on final is a gap| (not |a clause speaks on final|)))
(define-fun |silence on mark is a gap| () Bool
  (= |matter| 1))
(define-fun |there is a gap in mark| () Bool
  (and |silence on mark is a gap| (not |a clause speaks on mark|)))
(define-fun |silence on attempt is a gap| () Bool
  (= |matter| 1))
(define-fun |there is a gap in attempt| () Bool
  (and |silence on attempt is a gap| (not |a clause speaks on attempt|)))
(define-fun |silence on dart is a gap| () Bool
  (= |matter| 0))
(define-fun |there is a gap in dart| () Bool
  (and |silence on dart is a gap| (not |a clause speaks on dart|)))
(define-fun |the background is kept| () Bool
  true)

; The same with a small change made to the rules. Each question says which: they are counted in the
; order of the questions.
(declare-const |the change that is made| Int)
(define-fun |changed: 2.3 is met| () Bool
  (ite
    (= |the change that is made| 7)
    false
    (and
      (= |matter| 1)
      (and |hindered is asked| |hindered|)
      (not (and |keeps_attempt is asked| |keeps_attempt|)))))
(define-fun |changed: 2.3 is in force| () Bool
  |changed: 2.3 is met|)
(define-fun |changed: 2.3 stands on attempt| () Bool
  |changed: 2.3 is in force|)
(define-fun |changed: 2.2 is met| () Bool
  (ite (= |the change that is made| 6) false (and (= |matter| 1) |failed is false|)))
(define-fun |changed: 2.2 is in force| () Bool
  |changed: 2.2 is met|)
(define-fun |changed: 2.2 stands on attempt| () Bool
  (and |changed: 2.2 is in force| (not |changed: 2.3 is in force|)))
(define-fun |changed: 2.1 is met| () Bool
  (ite (= |the change that is made| 5) false (and (= |matter| 1) |failed is true|)))
(define-fun |changed: 2.1 is in force| () Bool
  |changed: 2.1 is met|)
(define-fun |changed: 2.1 stands on attempt| () Bool
  (and |changed: 2.1 is in force| (not |changed: 2.3 is in force|)))
(define-fun |changed: attempt may be repeated| () Bool
  (and
    |changed: 2.3 stands on attempt|
    (not (or |changed: 2.1 stands on attempt| |changed: 2.2 stands on attempt|))))
(define-fun |changed: attempt may be failure| () Bool
  (and
    |changed: 2.1 stands on attempt|
    (not (or |changed: 2.2 stands on attempt| |changed: 2.3 stands on attempt|))))
(define-fun |changed: attempt may be valid| () Bool
  (and
    |changed: 2.2 stands on attempt|
    (not (or |changed: 2.1 stands on attempt| |changed: 2.3 stands on attempt|))))
(define-fun |changed: attempt is settled| () Bool
  (and
    (or
      |changed: attempt may be valid|
      |changed: attempt may be failure|
      |changed: attempt may be repeated|)
    (not
      (<=
        2
        (+
          (ite |changed: attempt may be valid| 1 0)
          (ite |changed: attempt may be failure| 1 0)
          (ite |changed: attempt may be repeated| 1 0))))))
(define-fun |changed: 4.4 is met| () Bool
  (ite
    (= |the change that is made| 14)
    false
    (and
      |changed: attempt is settled|
      |changed: attempt may be valid|
      (or
        (and (= |category| 0) (and |distance is asked| (<= 0 |distance| 6125)))
        (and (= |category| 1) (and |distance is asked| (<= 0 |distance| 7890)))
        (and (= |category| 2) (and |distance is asked| (<= 0 |distance| 4975)))))))
(define-fun |changed: 4.4 is in force| () Bool
  |changed: 4.4 is met|)
(define-fun |changed: 4.4 stands on record| () Bool
  |changed: 4.4 is in force|)
(define-fun |changed: 4.3 is met| () Bool
  (ite
    (= |the change that is made| 13)
    false
    (and
      |changed: attempt is settled|
      |changed: attempt may be valid|
      (or
        (and (= |category| 0) (and |distance is asked| (<= 6126 |distance| 9000)))
        (and (= |category| 1) (and |distance is asked| (<= 7891 |distance| 9000)))
        (and (= |category| 2) (and |distance is asked| (<= 4976 |distance| 9000))))
      (and |gauge is asked| (not |gauge|)))))
(define-fun |changed: 4.3 is in force| () Bool
  |changed: 4.3 is met|)
(define-fun |changed: 4.3 stands on record| () Bool
  |changed: 4.3 is in force|)
(define-fun |changed: 4.2 is met| () Bool
  (ite
    (= |the change that is made| 12)
    false
    (and
      |changed: attempt is settled|
      |changed: attempt may be valid|
      (and |wind is asked| (<= 81 |wind| 120)))))
(define-fun |changed: 4.2 is in force| () Bool
  |changed: 4.2 is met|)
(define-fun |changed: 4.2 stands on record| () Bool
  |changed: 4.2 is in force|)
(define-fun |changed: 4.1 is met| () Bool
  (ite
    (= |the change that is made| 11)
    false
    (and
      |changed: attempt is settled|
      |changed: attempt may be valid|
      (or
        (and (= |category| 0) (and |distance is asked| (<= 6126 |distance| 9000)))
        (and (= |category| 1) (and |distance is asked| (<= 7891 |distance| 9000)))
        (and (= |category| 2) (and |distance is asked| (<= 4976 |distance| 9000))))
      (and |wind is asked| (<= 0 |wind| 80)))))
(define-fun |changed: 4.1 is in force| () Bool
  |changed: 4.1 is met|)
(define-fun |changed: 4.1 stands on record| () Bool
  |changed: 4.1 is in force|)
(define-fun |changed: record may be refused| () Bool
  (and
    (or |changed: 4.2 stands on record| |changed: 4.4 stands on record|)
    (not (or |changed: 4.1 stands on record| |changed: 4.3 stands on record|))))
(define-fun |changed: record may be kept_back| () Bool
  (and
    |changed: 4.3 stands on record|
    (not
      (or
        |changed: 4.1 stands on record|
        |changed: 4.2 stands on record|
        |changed: 4.4 stands on record|))))
(define-fun |changed: record may be entered| () Bool
  (and
    |changed: 4.1 stands on record|
    (not
      (or
        |changed: 4.2 stands on record|
        |changed: 4.3 stands on record|
        |changed: 4.4 stands on record|))))
(define-fun |changed: record is settled| () Bool
  (and
    (or
      |changed: record may be entered|
      |changed: record may be kept_back|
      |changed: record may be refused|)
    (not
      (<=
        2
        (+
          (ite |changed: record may be entered| 1 0)
          (ite |changed: record may be kept_back| 1 0)
          (ite |changed: record may be refused| 1 0))))))
(define-fun |changed: silence on final is a gap| () Bool
  false)
(define-fun |changed: 3.3 is met| () Bool
  (ite
    (= |the change that is made| 10)
    false
    (and
      |changed: attempt is settled|
      |changed: attempt may be valid|
      (or
        (and (= |category| 0) (and |distance is asked| (<= 4850 |distance| 9000)))
        (and (= |category| 1) (and |distance is asked| (<= 6300 |distance| 9000)))
        (and (= |category| 2) (and |distance is asked| (<= 3800 |distance| 9000)))))))
(define-fun |changed: 3.3 is in force| () Bool
  |changed: 3.3 is met|)
(define-fun |changed: a clause speaks on final| () Bool
  |changed: 3.3 is in force|)
(define-fun |changed: final may be not_reached| () Bool
  (and (not |changed: a clause speaks on final|) (not |changed: silence on final is a gap|)))
(define-fun |changed: 3.3 stands on final| () Bool
  |changed: 3.3 is in force|)
(define-fun |changed: final may be reached| () Bool
  |changed: 3.3 stands on final|)
(define-fun |changed: final is settled| () Bool
  (and
    (or |changed: final may be reached| |changed: final may be not_reached|)
    (not (and |changed: final may be reached| |changed: final may be not_reached|))))
(define-fun |changed: 3.2 is met| () Bool
  (ite
    (= |the change that is made| 9)
    false
    (and
      |changed: attempt is settled|
      (or |changed: attempt may be failure| |changed: attempt may be repeated|))))
(define-fun |changed: 3.2 is in force| () Bool
  |changed: 3.2 is met|)
(define-fun |changed: 3.2 stands on mark| () Bool
  |changed: 3.2 is in force|)
(define-fun |changed: 3.1 is met| () Bool
  (ite
    (= |the change that is made| 8)
    false
    (and |changed: attempt is settled| |changed: attempt may be valid|)))
(define-fun |changed: 3.1 is in force| () Bool
  |changed: 3.1 is met|)
(define-fun |changed: 3.1 stands on mark| () Bool
  |changed: 3.1 is in force|)
(define-fun |changed: mark may be not_measured| () Bool
  (and |changed: 3.2 stands on mark| (not |changed: 3.1 stands on mark|)))
(define-fun |changed: mark may be measured| () Bool
  (and |changed: 3.1 stands on mark| (not |changed: 3.2 stands on mark|)))
(define-fun |changed: mark is settled| () Bool
  (and
    (or |changed: mark may be measured| |changed: mark may be not_measured|)
    (not (and |changed: mark may be measured| |changed: mark may be not_measured|))))
(define-fun |changed: 1.4 is met| () Bool
  (ite
    (= |the change that is made| 4)
    false
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
      (not (and |damaged is asked| |damaged|)))))
(define-fun |changed: 1.4 is in force| () Bool
  |changed: 1.4 is met|)
(define-fun |changed: 1.4 stands on dart| () Bool
  |changed: 1.4 is in force|)
(define-fun |changed: 1.3 is met| () Bool
  (ite
    (= |the change that is made| 3)
    false
    (and (= |matter| 0) (and |damaged is asked| |damaged|))))
(define-fun |changed: 1.3 is in force| () Bool
  |changed: 1.3 is met|)
(define-fun |changed: 1.3 stands on dart| () Bool
  |changed: 1.3 is in force|)
(define-fun |changed: 1.2 is met| () Bool
  (ite
    (= |the change that is made| 2)
    false
    (and
      (= |matter| 0)
      (or
        (and (= |category| 0) (and |length is asked| (<= 0 |length| 29)))
        (and (= |category| 1) (and |length is asked| (<= 0 |length| 69)))
        (and (= |category| 2) (and |length is asked| (<= 0 |length| 9)))
        (and (= |category| 0) (and |length is asked| (<= 41 |length| 90)))
        (and (= |category| 1) (and |length is asked| (<= 81 |length| 90)))))))
(define-fun |changed: 1.2 is in force| () Bool
  |changed: 1.2 is met|)
(define-fun |changed: 1.2 stands on dart| () Bool
  |changed: 1.2 is in force|)
(define-fun |changed: 1.1 is met| () Bool
  (ite
    (= |the change that is made| 1)
    false
    (and
      (= |matter| 0)
      (or
        (and (= |category| 0) (and |weight is asked| (<= 0 |weight| 149)))
        (and (= |category| 1) (and |weight is asked| (<= 0 |weight| 349)))
        (and (= |category| 2) (and |weight is asked| (<= 0 |weight| 49)))))))
(define-fun |changed: 1.1 is in force| () Bool
  |changed: 1.1 is met|)
(define-fun |changed: 1.1 stands on dart| () Bool
  |changed: 1.1 is in force|)
(define-fun |changed: dart may be rejected| () Bool
  (and
    (or |changed: 1.1 stands on dart| |changed: 1.2 stands on dart| |changed: 1.3 stands on dart|)
    (not |changed: 1.4 stands on dart|)))
(define-fun |changed: dart may be accepted| () Bool
  (and
    |changed: 1.4 stands on dart|
    (not
      (or |changed: 1.1 stands on dart| |changed: 1.2 stands on dart| |changed: 1.3 stands on dart|))))
(define-fun |changed: dart is settled| () Bool
  (and
    (or |changed: dart may be accepted| |changed: dart may be rejected|)
    (not (and |changed: dart may be accepted| |changed: dart may be rejected|))))
(define-fun |changed: a clause speaks on record| () Bool
  (or
    |changed: 4.1 is in force|
    |changed: 4.2 is in force|
    |changed: 4.3 is in force|
    |changed: 4.4 is in force|))
(define-fun |changed: rulings clash on record| () Bool
  (and
    |changed: a clause speaks on record|
    (not
      (or
        |changed: record may be entered|
        |changed: record may be kept_back|
        |changed: record may be refused|))))
(define-fun |changed: rulings clash on final| () Bool
  (and
    |changed: a clause speaks on final|
    (not (or |changed: final may be reached| |changed: final may be not_reached|))))
(define-fun |changed: a clause speaks on mark| () Bool
  (or |changed: 3.1 is in force| |changed: 3.2 is in force|))
(define-fun |changed: rulings clash on mark| () Bool
  (and
    |changed: a clause speaks on mark|
    (not (or |changed: mark may be measured| |changed: mark may be not_measured|))))
(define-fun |changed: a clause speaks on attempt| () Bool
  (or |changed: 2.1 is in force| |changed: 2.2 is in force| |changed: 2.3 is in force|))
(define-fun |changed: rulings clash on attempt| () Bool
  (and
    |changed: a clause speaks on attempt|
    (not
      (or
        |changed: attempt may be valid|
        |changed: attempt may be failure|
        |changed: attempt may be repeated|))))
(define-fun |changed: a clause speaks on dart| () Bool
  (or
    |changed: 1.1 is in force|
    |changed: 1.2 is in force|
    |changed: 1.3 is in force|
    |changed: 1.4 is in force|))
(define-fun |changed: rulings clash on dart| () Bool
  (and
    |changed: a clause speaks on dart|
    (not (or |changed: dart may be accepted| |changed: dart may be rejected|))))
(define-fun |changed: silence on record is a gap| () Bool
  (and |changed: attempt is settled| |changed: attempt may be valid|))
(define-fun |changed: there is a gap in record| () Bool
  (and |changed: silence on record is a gap| (not |changed: a clause speaks on record|)))
(define-fun |changed: there is a gap in final| () Bool
  (and |changed: silence on final is a gap| (not |changed: a clause speaks on final|)))
(define-fun |changed: silence on mark is a gap| () Bool
  (= |matter| 1))
(define-fun |changed: there is a gap in mark| () Bool
  (and |changed: silence on mark is a gap| (not |changed: a clause speaks on mark|)))
(define-fun |changed: silence on attempt is a gap| () Bool
  (= |matter| 1))
(define-fun |changed: there is a gap in attempt| () Bool
  (and |changed: silence on attempt is a gap| (not |changed: a clause speaks on attempt|)))
(define-fun |changed: silence on dart is a gap| () Bool
  (= |matter| 0))
(define-fun |changed: there is a gap in dart| () Bool
  (and |changed: silence on dart is a gap| (not |changed: a clause speaks on dart|)))
(define-fun |changed: dart differs| () Bool
  (or
    (xor |dart may be accepted| |changed: dart may be accepted|)
    (xor |dart may be rejected| |changed: dart may be rejected|)
    (xor |dart is settled| |changed: dart is settled|)
    (xor |there is a gap in dart| |changed: there is a gap in dart|)
    (xor |rulings clash on dart| |changed: rulings clash on dart|)))
(define-fun |changed: attempt differs| () Bool
  (or
    (xor |attempt may be valid| |changed: attempt may be valid|)
    (xor |attempt may be failure| |changed: attempt may be failure|)
    (xor |attempt may be repeated| |changed: attempt may be repeated|)
    (xor |attempt is settled| |changed: attempt is settled|)
    (xor |there is a gap in attempt| |changed: there is a gap in attempt|)
    (xor |rulings clash on attempt| |changed: rulings clash on attempt|)))
(define-fun |changed: mark differs| () Bool
  (or
    (xor |mark may be measured| |changed: mark may be measured|)
    (xor |mark may be not_measured| |changed: mark may be not_measured|)
    (xor |mark is settled| |changed: mark is settled|)
    (xor |there is a gap in mark| |changed: there is a gap in mark|)
    (xor |rulings clash on mark| |changed: rulings clash on mark|)))
(define-fun |changed: final differs| () Bool
  (or
    (xor |final may be reached| |changed: final may be reached|)
    (xor |final may be not_reached| |changed: final may be not_reached|)
    (xor |final is settled| |changed: final is settled|)
    (xor |there is a gap in final| |changed: there is a gap in final|)
    (xor |rulings clash on final| |changed: rulings clash on final|)))
(define-fun |changed: record differs| () Bool
  (or
    (xor |record may be entered| |changed: record may be entered|)
    (xor |record may be kept_back| |changed: record may be kept_back|)
    (xor |record may be refused| |changed: record may be refused|)
    (xor |record is settled| |changed: record is settled|)
    (xor |there is a gap in record| |changed: there is a gap in record|)
    (xor |rulings clash on record| |changed: rulings clash on record|)))

; What isn't asked has no value; it is pinned to no, zero, or the empty set.
(assert (or |weight is asked| (= |weight| 0)))
(assert (or |length is asked| (= |length| 0)))
(assert (=> |damaged| |damaged is asked|))
(assert (or |seconds_used is asked| (= |seconds_used| 0)))
(assert (or |foot is asked| (= |foot| 0)))
(assert (=> |left_early| |left_early is asked|))
(assert (or |landing is asked| (= |landing| 0)))
(assert (=> |tip_first| |tip_first is asked|))
(assert (=> |hindered| |hindered is asked|))
(assert (=> |keeps_attempt| |keeps_attempt is asked|))
(assert (or |distance is asked| (= |distance| 0)))
(assert (=> |gauge| |gauge is asked|))
(assert (or |wind is asked| (= |wind| 0)))

; No scenario breaks the background.
(assert |the background is kept|)

; Is there a scenario in which clause 1.1 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 1) |1.1 is met| |changed: dart differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 1.2 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 2) |1.2 is met| |changed: dart differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 1.3 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 3) |1.3 is met| |changed: dart differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 1.4 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 4) |1.4 is met| |changed: dart differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 2.1 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 5)
    |2.1 is met|
    (or
      |changed: attempt differs|
      |changed: mark differs|
      |changed: final differs|
      |changed: record differs|)))
(check-sat)
(pop 1)

; Is there a scenario in which clause 2.2 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 6)
    |2.2 is met|
    (or
      |changed: attempt differs|
      |changed: mark differs|
      |changed: final differs|
      |changed: record differs|)))
(check-sat)
(pop 1)

; Is there a scenario in which clause 2.3 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and
    (= |the change that is made| 7)
    |2.3 is met|
    (or
      |changed: attempt differs|
      |changed: mark differs|
      |changed: final differs|
      |changed: record differs|)))
(check-sat)
(pop 1)

; Is there a scenario in which clause 3.1 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 8) |3.1 is met| |changed: mark differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 3.2 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 9) |3.2 is met| |changed: mark differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 3.3 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 10) |3.3 is met| |changed: final differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 4.1 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 11) |4.1 is met| |changed: record differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 4.2 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 12) |4.2 is met| |changed: record differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 4.3 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 13) |4.3 is met| |changed: record differs|))
(check-sat)
(pop 1)

; Is there a scenario in which clause 4.4 is met and some announced ruling would be another without it?
(push 1)
(set-info :status sat)
(assert
  (and (= |the change that is made| 14) |4.4 is met| |changed: record differs|))
(check-sat)
(pop 1)
