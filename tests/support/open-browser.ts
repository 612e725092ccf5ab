import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const names = ['chromium', 'chromium-browser', 'google-chrome'];

/** The system's browser, or null where there is none: tests that want it then skip. */
export const browserPath: string | null =
  (process.env['PATH'] ?? '')
    .split(delimiter)
    .flatMap((folder) => names.map((name) => join(folder, name)))
    .find(isThere) ?? null;

function isThere(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

// Starts the system's browser.
export async function openBrowser(): Promise<Browser> {
  if (browserPath === null) throw new Error('there is no browser');
  return chromium.launch({ executablePath: browserPath, args: ['--no-sandbox'] });
}
