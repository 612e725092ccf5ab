import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

/** What the peer's process said of one call. */
export interface PeerAnswer {
  /** By its own clock, the kernel's call alone. */
  readonly ms: number;
  /** The same, processor time. */
  readonly cpu: number;
  /** Of a cut: what it costs. */
  readonly cost?: number;
}

/** A process that runs a peer's kernels when told. */
export interface PeerProcess {
  /** What it is made of. */
  readonly versions: Readonly<Record<string, string>>;
  /** Time a call of one of the script's kernels. */
  readonly run: (kernel: string) => Promise<PeerAnswer>;
  /** Let the process go. */
  readonly end: () => void;
}

const python = '/usr/bin/python3';
const script = fileURLToPath(new URL('../src/peer-seams.py', import.meta.url));

/**
 * Start the script in the system's own Python, and wait until its libraries are loaded.
 *
 * @param args - The script's.
 * @returns The process, or in words why there is none.
 */
export async function startPeer(args: readonly string[]): Promise<PeerProcess | string> {
  const peer = spawn(python, [script, ...args], { stdio: ['pipe', 'pipe', 'pipe'] });
  const complaints: string[] = [];
  peer.stderr.setEncoding('utf8').on('data', (text: string) => complaints.push(text));
  peer.on('error', ({ message }) => complaints.push(message));
  peer.stdin.on('error', ({ message }) => complaints.push(message));
  const lines = createInterface({ input: peer.stdout })[Symbol.asyncIterator]();
  const next = async (): Promise<string | null> => {
    const line: IteratorResult<string, unknown> = await lines.next();
    return line.done === true ? null : line.value;
  };
  const first = await next();
  if (first === null) {
    const said = complaints.join('').trim().split('\n').at(-1) ?? '';
    return `${python} with cv2, skimage and numpy is wanted: ${said || 'it ended at once'}`;
  }
  return {
    versions: JSON.parse(first) as Record<string, string>,
    run: async (kernel) => {
      peer.stdin.write(`${kernel}\n`);
      const line = await next();
      if (line === null) throw new Error(`${kernel}: ${complaints.join('')}`);
      return JSON.parse(line) as PeerAnswer;
    },
    end: () => {
      peer.stdin.end();
    },
  };
}
