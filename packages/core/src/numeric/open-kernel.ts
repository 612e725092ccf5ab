/** Code of WebAssembly in base64, as `wat.mjs` makes it of a `.wat`. */
type KernelCode = string;

/** Arrays that a kernel works on, by name: numbers of four bytes each, where it finds them. */
type KernelRoom<Name extends string> = Readonly<Record<Name, Float32Array<ArrayBuffer>>>;

/** A kernel with memory of its own. */
export interface Kernel<Call extends string, Name extends string> {
  /** What it does, by name; arrays are told by their `byteOffset`. */
  readonly calls: Readonly<Record<Call, (...numbers: number[]) => void>>;
  /** What it does that on; all 0 at first. */
  readonly room: KernelRoom<Name>;
}

// What is used of the standard's own interface, which Node's types leave out.
declare const WebAssembly: {
  readonly Memory: new (size: { readonly initial: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (
    module: object,
    imports: Readonly<Record<string, Readonly<Record<string, object>>>>,
  ) => { readonly exports: unknown };
};

const pageBytes = 65_536;
// Where the first array begins: at 0 would be nothing before a row to look at.
const before = 64;
const modules = new Map<KernelCode, object>();

/**
 * Open code that works on several numbers at once, with memory for its arrays.
 *
 * @param code - What takes its memory as `room.memory`.
 * @param lengths - Numbers of each array, whole, 0 or more; each begins at a multiple of 64 bytes, with as many to spare
 *   behind it.
 * @returns It.
 * @see WebAssembly Core Specification 2.0, 4.4.3: vector instructions
 */
export function openKernel<Call extends string, Name extends string>(
  code: KernelCode,
  lengths: Readonly<Record<Name, number>>,
): Kernel<Call, Name> {
  let end = before;
  const places = Object.entries<number>(lengths).map(([name, length]) => {
    const at = end;
    end += 64 * (Math.ceil(length / 16) + 1);
    return { name, at, length };
  });
  const memory = new WebAssembly.Memory({ initial: Math.ceil(end / pageBytes) });
  const arrays = places.map(({ name, at, length }) => [
    name,
    new Float32Array(memory.buffer, at, length),
  ]);
  const { exports } = new WebAssembly.Instance(moduleOf(code), { room: { memory } });
  return {
    calls: exports as Kernel<Call, Name>['calls'],
    room: Object.fromEntries(arrays) as KernelRoom<Name>,
  };
}

// Compiled once in each thread.
function moduleOf(code: KernelCode): object {
  const held = modules.get(code);
  if (held !== undefined) return held;
  const module = new WebAssembly.Module(
    Uint8Array.from(atob(code), (letter) => letter.charCodeAt(0)),
  );
  modules.set(code, module);
  return module;
}
