; Dart throw of the Island Athletics League, edition 2031
; For each clause that can be met there is a scenario in which a ruling of it stands, or it is in force and has none.
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
(define-fun |3.3 stands on final| () Bool
  |3.3 is in force|)
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
(define-fun |the background is kept| () Bool
  true)

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

; Is there a scenario in which a ruling of clause 1.1 stands?
(push 1)
(set-info :status sat)
(assert
  |1.1 stands on dart|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 1.2 stands?
(push 1)
(set-info :status sat)
(assert
  |1.2 stands on dart|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 1.3 stands?
(push 1)
(set-info :status sat)
(assert
  |1.3 stands on dart|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 1.4 stands?
(push 1)
(set-info :status sat)
(assert
  |1.4 stands on dart|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 2.1 stands?
(push 1)
(set-info :status sat)
(assert
  |2.1 stands on attempt|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 2.2 stands?
(push 1)
(set-info :status sat)
(assert
  |2.2 stands on attempt|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 2.3 stands?
(push 1)
(set-info :status sat)
(assert
  |2.3 stands on attempt|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.1 stands?
(push 1)
(set-info :status sat)
(assert
  |3.1 stands on mark|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.2 stands?
(push 1)
(set-info :status sat)
(assert
  |3.2 stands on mark|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 3.3 stands?
(push 1)
(set-info :status sat)
(assert
  |3.3 stands on final|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.1 stands?
(push 1)
(set-info :status sat)
(assert
  |4.1 stands on record|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.2 stands?
(push 1)
(set-info :status sat)
(assert
  |4.2 stands on record|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.3 stands?
(push 1)
(set-info :status sat)
(assert
  |4.3 stands on record|)
(check-sat)
(pop 1)

; Is there a scenario in which a ruling of clause 4.4 stands?
(push 1)
(set-info :status sat)
(assert
  |4.4 stands on record|)
(check-sat)
(pop 1)
