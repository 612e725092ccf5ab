;; PNG's filters, 8 or 16 bytes at once: of bytes of a row from one up to `end` of out, each less what those around it lead
;; to expect. Left is `step` bytes before in the row. Some bytes behind the end are written, too.
;; See PNG Specification, third edition, 9.2 to 9.4
(module
  (import "room" "memory" (memory 1))

  ;; out = row - left
  (func (export "sub")
    (param $out i32) (param $row i32) (param $above i32) (param $step i32) (param $end i32)
    (loop $next
      (v128.store (local.get $out)
        (i8x16.sub
          (v128.load (local.get $row))
          (v128.load (i32.sub (local.get $row) (local.get $step)))))
      (local.set $row (i32.add (local.get $row) (i32.const 16)))
      (local.set $out (i32.add (local.get $out) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $out) (local.get $end)))))

  ;; out = row - floor((left + above) / 2)
  ;; `avgr` is (left + above + 1) / 2, which is one too much where the sum is odd.
  (func (export "average")
    (param $out i32) (param $row i32) (param $above i32) (param $step i32) (param $end i32)
    (local $left v128) (local $up v128)
    (loop $next
      (local.set $left (v128.load (i32.sub (local.get $row) (local.get $step))))
      (local.set $up (v128.load (local.get $above)))
      (v128.store (local.get $out)
        (i8x16.sub
          (v128.load (local.get $row))
          (i8x16.sub
            (i8x16.avgr_u (local.get $left) (local.get $up))
            (v128.and
              (v128.xor (local.get $left) (local.get $up))
              (i8x16.splat (i32.const 1))))))
      (local.set $row (i32.add (local.get $row) (i32.const 16)))
      (local.set $above (i32.add (local.get $above) (i32.const 16)))
      (local.set $out (i32.add (local.get $out) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $out) (local.get $end)))))

  ;; out = row - whichever of left, above and above left is nearest to left + above - above left, the earlier of two.
  (func (export "paeth")
    (param $out i32) (param $row i32) (param $above i32) (param $step i32) (param $end i32)
    (local $left v128) (local $up v128) (local $upLeft v128)
    (local $fromLeft v128) (local $fromUp v128) (local $fromUpLeft v128) (local $least v128)
    (loop $next
      (local.set $left (v128.load8x8_u (i32.sub (local.get $row) (local.get $step))))
      (local.set $up (v128.load8x8_u (local.get $above)))
      (local.set $upLeft (v128.load8x8_u (i32.sub (local.get $above) (local.get $step))))
      (local.set $fromLeft (i16x8.sub (local.get $up) (local.get $upLeft)))
      (local.set $fromUp (i16x8.sub (local.get $left) (local.get $upLeft)))
      (local.set $fromUpLeft
        (i16x8.abs (i16x8.add (local.get $fromLeft) (local.get $fromUp))))
      (local.set $fromLeft (i16x8.abs (local.get $fromLeft)))
      (local.set $fromUp (i16x8.abs (local.get $fromUp)))
      (local.set $least
        (i16x8.min_s
          (local.get $fromLeft)
          (i16x8.min_s (local.get $fromUp) (local.get $fromUpLeft))))
      (v128.store64_lane 0 (local.get $out)
        (i8x16.narrow_i16x8_u
          (v128.and
            (i16x8.sub
              (v128.load8x8_u (local.get $row))
              (v128.bitselect
                (local.get $left)
                (v128.bitselect
                  (local.get $up)
                  (local.get $upLeft)
                  (i16x8.eq (local.get $fromUp) (local.get $least)))
                (i16x8.eq (local.get $fromLeft) (local.get $least))))
            (v128.const i16x8 255 255 255 255 255 255 255 255))
          (local.get $least)))
      (local.set $row (i32.add (local.get $row) (i32.const 8)))
      (local.set $above (i32.add (local.get $above) (i32.const 8)))
      (local.set $out (i32.add (local.get $out) (i32.const 8)))
      (br_if $next (i32.lt_u (local.get $out) (local.get $end)))))
)
