import { createHash } from 'node:crypto';
import { readFileSync, readlinkSync } from 'node:fs';
import { hostname } from 'node:os';

/** A day: what another machine left unchanged for so long, nobody there is still at. */
const longMs = 86_400_000;

function orNothing(read: () => string): string {
  try {
    return read();
  } catch {
    return '';
  }
}

// A number tells a process from others of one machine, and of one container: several may share a folder.
const place = createHash('sha256')
  .update(hostname())
  .update(orNothing(() => readFileSync('/etc/machine-id', 'utf8')))
  .update(orNothing(() => readlinkSync('/proc/self/ns/pid')))
  .digest('hex')
  .slice(0, 8);

/**
 * Tell this process from those of any machine.
 *
 * @returns 8 hexadecimal digits and its number, `5e0f11c2-4711`.
 */
export function markProcess(): string {
  return `${place}-${process.pid}`;
}

/**
 * Tell whether the process that made a file is gone.
 *
 * @param mark - Of whoever made it.
 * @param modifiedMs - Gives when the file was last changed, in ms since 1970.
 * @returns Whether it is: of this machine's it is known, of another's guessed after a day.
 */
export function isGone(mark: string, modifiedMs: () => number): boolean {
  const [where, pid] = mark.split('-');
  if (where === place) return !isAlive(Number(pid));
  return Date.now() - modifiedMs() > longMs;
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    // One of somebody else's lives, too.
    return cause instanceof Error && 'code' in cause && cause.code === 'EPERM';
  }
}
