;; PNG's filter Average, 16 bytes at once.
(module
  (import "room" "memory" (memory 1))

  ;; out = row - floor((left + above) / 2), up to `end` of out; left is `step` bytes before in the row.
  ;; `avgr` is (left + above + 1) / 2, which is one too much where the sum is odd.
  ;; See PNG Specification, third edition, 9.2
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
)
