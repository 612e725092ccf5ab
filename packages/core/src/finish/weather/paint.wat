;; Rows of places and of dots, a dot's red, green, blue and a fourth number at once.
;;
;; A place is 16 numbers: what red, green and blue of bricks are multiplied by, less 1, and how thick a coat lies on them;
;; what is added to them, and how many times as much of the wall's faded colour shows as of its own; and the same eight
;; numbers of joints, of which two are to spare: once they are told, less those of bricks.
(module
  (import "room" "memory" (memory 1))

  ;; out = above + share * (below - above), up to `end` of out.
  (func (export "mix")
    (param $out i32) (param $above i32) (param $below i32) (param $share f32) (param $end i32)
    (local $shares v128) (local $from v128)
    (local.set $shares (f32x4.splat (local.get $share)))
    (loop $next
      (local.set $from (v128.load (local.get $above)))
      (v128.store (local.get $out)
        (f32x4.add
          (local.get $from)
          (f32x4.mul
            (local.get $shares)
            (f32x4.sub (v128.load (local.get $below)) (local.get $from)))))
      (local.set $above (i32.add (local.get $above) (i32.const 16)))
      (local.set $below (i32.add (local.get $below) (i32.const 16)))
      (local.set $out (i32.add (local.get $out) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $out) (local.get $end)))))

  ;; Lay paint over bricks or joints of places, on top of what lies there, as much as `cover` says, up to `end` of it: of a
  ;; line a * colour + b is left (1 - cover) of it and cover of the paint's. The coat stays.
  (func (export "lay")
    (param $place i32) (param $cover i32) (param $end i32)
    (param $paint i32) ;; what each colour is multiplied by, less 1, under all of it, and 0; what is added, and 0
    (local $gains v128) (local $adds v128) (local $share v128) (local $less v128) (local $kept v128)
    (local.set $gains (v128.load (local.get $paint)))
    (local.set $adds (v128.load offset=16 (local.get $paint)))
    (loop $next
      (local.set $share (v128.load32_splat (local.get $cover)))
      (local.set $less (f32x4.mul (local.get $share) (local.get $gains)))
      (local.set $kept (f32x4.add (v128.const f32x4 1 1 1 1) (local.get $less)))
      (v128.store (local.get $place)
        (f32x4.add
          (f32x4.mul (local.get $kept) (v128.load (local.get $place)))
          (local.get $less)))
      (v128.store offset=16 (local.get $place)
        (f32x4.add
          (f32x4.mul (local.get $kept) (v128.load offset=16 (local.get $place)))
          (f32x4.mul (local.get $share) (local.get $adds))))
      (local.set $place (i32.add (local.get $place) (i32.const 64)))
      (local.set $cover (i32.add (local.get $cover) (i32.const 4)))
      (br_if $next (i32.lt_u (local.get $cover) (local.get $end)))))

  ;; Add the faded colour where it shows, and of joints leave by how much they differ from bricks, which is not to be told
  ;; through a coat; up to `end` of the places.
  (func (export "tell")
    (param $place i32) (param $end i32)
    (param $faded i32) ;; red, green and blue, and 0
    (local $bare v128) (local $under v128) (local $add v128) (local $colour v128)
    (local.set $colour (v128.load (local.get $faded)))
    (loop $next
      (local.set $under (v128.load (local.get $place)))
      (local.set $bare
        (f32x4.splat (f32.sub (f32.const 1) (f32x4.extract_lane 3 (local.get $under)))))
      (local.set $add (v128.load offset=16 (local.get $place)))
      (call $fade
        (local.get $place)
        (f32x4.mul (local.get $colour) (f32x4.splat (f32x4.extract_lane 3 (local.get $add)))))
      (call $fade
        (i32.add (local.get $place) (i32.const 32))
        (f32x4.mul (local.get $colour) (f32x4.splat (f32x4.extract_lane 3 (local.get $add)))))
      (v128.store offset=32 (local.get $place)
        (f32x4.mul
          (local.get $bare)
          (f32x4.sub (v128.load offset=32 (local.get $place)) (local.get $under))))
      (v128.store offset=48 (local.get $place)
        (f32x4.mul
          (local.get $bare)
          (f32x4.sub (v128.load offset=48 (local.get $place)) (v128.load offset=16 (local.get $place)))))
      (local.set $place (i32.add (local.get $place) (i32.const 64)))
      (br_if $next (i32.lt_u (local.get $place) (local.get $end)))))

  ;; Of a faded colour as much is left as of the wall's own.
  (func $fade
    (param $line i32) (param $colour v128)
    (v128.store offset=16 (local.get $line)
      (f32x4.add
        (v128.load offset=16 (local.get $line))
        (f32x4.mul
          (local.get $colour)
          (f32x4.add (v128.const f32x4 1 1 1 1) (v128.load (local.get $line)))))))

  ;; Paint dots `x` up to `end`, counted from the first place of the row: each takes as much of what lies over it as its
  ;; grain and its brick say, and the more the thicker a coat lies on it; which is never more than all.
  (func (export "paint")
    (param $out i32) (param $bytes i32) ;; three bytes a dot, or three numbers
    (param $dot i32)                    ;; of the picture: red, green, blue, and how like a joint it is
    (param $label i32)                  ;; its brick's number
    (param $shares i32)                 ;; how much each brick takes
    (param $grain i32)
    (param $place i32)                  ;; the one before the first dot
    (param $x i32) (param $end i32)
    (param $places i32)                 ;; dots from one to the next, a power of 2
    (local $step v128) (local $way v128) (local $until i32)
    (local $take f32) (local $share f32)
    (local $gain v128) (local $add v128)
    ;; Of this place, and how much more of it the next has.
    (local $gain0 v128) (local $add0 v128) (local $jointGain0 v128) (local $jointAdd0 v128)
    (local $gain1 v128) (local $add1 v128) (local $jointGain1 v128) (local $jointAdd1 v128)
    (local $under v128) (local $joint v128) (local $level v128) (local $past v128)
    ;; Told before the loop: else each is made anew for every dot.
    (local $most v128) (local $more v128) (local $whole v128) (local $half v128) (local $lessHalf v128)
    (local.set $most (v128.const f32x4 255 255 255 255))
    (local.set $more (v128.const f32x4 256 256 256 256))
    (local.set $whole (v128.const f32x4 12582912 12582912 12582912 12582912))
    (local.set $half (v128.const f32x4 0.5 0.5 0.5 0.5))
    (local.set $lessHalf (v128.const f32x4 -0.5 -0.5 -0.5 -0.5))
    (local.set $step
      (f32x4.splat (f32.div (f32.const 1) (f32.convert_i32_u (local.get $places)))))
    (local.set $places (i32.sub (local.get $places) (i32.const 1)))
    (local.set $way
      (f32x4.mul
        (local.get $step)
        (f32x4.splat (f32.convert_i32_u (i32.and (local.get $x) (local.get $places))))))
    (loop $nextPlace
      (local.set $gain0 (v128.load (local.get $place)))
      (local.set $add0 (v128.load offset=16 (local.get $place)))
      (local.set $jointGain0 (v128.load offset=32 (local.get $place)))
      (local.set $jointAdd0 (v128.load offset=48 (local.get $place)))
      (local.set $gain1 (f32x4.sub (v128.load offset=64 (local.get $place)) (local.get $gain0)))
      (local.set $add1 (f32x4.sub (v128.load offset=80 (local.get $place)) (local.get $add0)))
      (local.set $jointGain1
        (f32x4.sub (v128.load offset=96 (local.get $place)) (local.get $jointGain0)))
      (local.set $jointAdd1
        (f32x4.sub (v128.load offset=112 (local.get $place)) (local.get $jointAdd0)))
      (local.set $until (i32.add (i32.or (local.get $x) (local.get $places)) (i32.const 1)))
      (if (i32.gt_u (local.get $until) (local.get $end)) (then
        (local.set $until (local.get $end))))
      (loop $next
        ;; Straight between this place and the next.
        (local.set $gain
          (f32x4.add (local.get $gain0) (f32x4.mul (local.get $way) (local.get $gain1))))
        (local.set $add
          (f32x4.add (local.get $add0) (f32x4.mul (local.get $way) (local.get $add1))))
        (local.set $take
          (f32.mul
            (f32.load (local.get $grain))
            (f32.load
              (i32.add
                (local.get $shares)
                (i32.shl (i32.load (local.get $label)) (i32.const 2))))))
        (local.set $take
          (f32.add
            (local.get $take)
            (f32.mul
              (f32.sub (f32.const 1) (local.get $take))
              (f32x4.extract_lane 3 (local.get $gain)))))
        (local.set $under (v128.load (local.get $dot)))
        ;; Most are of bricks alone.
        (local.set $share (f32x4.extract_lane 3 (local.get $under)))
        (if (f32.ne (local.get $share) (f32.const 0)) (then
          (local.set $joint (f32x4.splat (local.get $share)))
          (local.set $gain
            (f32x4.add
              (local.get $gain)
              (f32x4.mul
                (local.get $joint)
                (f32x4.add
                  (local.get $jointGain0)
                  (f32x4.mul (local.get $way) (local.get $jointGain1))))))
          (local.set $add
            (f32x4.add
              (local.get $add)
              (f32x4.mul
                (local.get $joint)
                (f32x4.add
                  (local.get $jointAdd0)
                  (f32x4.mul (local.get $way) (local.get $jointAdd1))))))))
        (local.set $under
          (f32x4.add
            (local.get $under)
            (f32x4.mul
              (f32x4.splat (local.get $take))
              (f32x4.add
                (local.get $add)
                (f32x4.mul (local.get $gain) (local.get $under))))))
        (if (local.get $bytes)
          (then
            ;; 1.5 * 2^23 leaves whole numbers alone, the nearest: as a number and, its bits less those, as an integer.
            (local.set $level
              (f32x4.add
                (f32x4.mul (local.get $under) (local.get $most))
                (local.get $whole)))
            ;; What 255 times the colour is past that, to the last bit: the product was rounded before, to the wrong side
            ;; of a half at times. Comparisons are -1 where they hold.
            (local.set $past
              (f32x4.sub
                (f32x4.sub
                  (f32x4.mul (local.get $under) (local.get $more))
                  (f32x4.sub (local.get $level) (local.get $whole)))
                (local.get $under)))
            (local.set $level
              (i32x4.add
                (i32x4.sub
                  (i32x4.sub (local.get $level) (local.get $whole))
                  (f32x4.ge (local.get $past) (local.get $half)))
                (f32x4.lt (local.get $past) (local.get $lessHalf))))
            ;; Clipped to bytes; the fourth is written over by the next dot.
            (local.set $level (i16x8.narrow_i32x4_s (local.get $level) (local.get $level)))
            (i32.store
              (local.get $out)
              (i32x4.extract_lane 0
                (i8x16.narrow_i16x8_u (local.get $level) (local.get $level))))
            (local.set $out (i32.add (local.get $out) (i32.const 3))))
          (else
            (v128.store (local.get $out) (local.get $under))
            (local.set $out (i32.add (local.get $out) (i32.const 12)))))
        (local.set $dot (i32.add (local.get $dot) (i32.const 16)))
        (local.set $label (i32.add (local.get $label) (i32.const 4)))
        (local.set $grain (i32.add (local.get $grain) (i32.const 4)))
        (local.set $way (f32x4.add (local.get $way) (local.get $step)))
        (local.set $x (i32.add (local.get $x) (i32.const 1)))
        (br_if $next (i32.lt_u (local.get $x) (local.get $until))))
      (local.set $way (v128.const f32x4 0 0 0 0))
      (local.set $place (i32.add (local.get $place) (i32.const 64)))
      (br_if $nextPlace (i32.lt_u (local.get $x) (local.get $end)))))
)
