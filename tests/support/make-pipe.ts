import { spawnSync } from 'node:child_process';

const command = 'mkfifo';

// A named pipe: opening one blocks until someone opens its other end.
export function makePipe(path: string): void {
  const { status } = spawnSync(command, [path]);
  if (status !== 0) throw new Error(`${command} made no pipe`);
}
