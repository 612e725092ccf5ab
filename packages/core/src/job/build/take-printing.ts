import { checkPrinting, printingFiles, type PrintingOptions } from '../print/printing-options.js';
import type { JobPath } from './bad-job.js';
import { printingFields } from './fields/printing-fields.js';
import { given } from '../given.js';
import { inFolder } from './in-folder.js';
import type { JobContext } from './job-context.js';
import { checked, type Entry, takeKeys } from './take-keys.js';

/** What is done to the colours of a part. */
export interface TakenPrinting {
  /** As jobs take it, or undefined for nothing. */
  readonly printing: PrintingOptions | undefined;
  /** Files that are read for it. */
  readonly files: readonly string[];
}

/**
 * Take what is said of printing: for a part, or at the top for all that say nothing of it. Sheets lay
 * parts as they are, so that nothing is done twice.
 *
 * @param entry - Of the part.
 * @param context - Of the job.
 * @param path - Where the part stands.
 * @returns What is done.
 * @throws BadJob where something of it cannot be meant.
 */
export function takePrinting(entry: Entry, context: JobContext, path: JobPath): TakenPrinting {
  const own = entry['printing'] as Entry | undefined;
  const written = own ?? context.data.printing;
  if (written === undefined) {
    const { printing } = context.usual;
    for (const name of Object.keys(printing ?? {}) as (keyof PrintingOptions)[])
      context.taken.add(name);
    return { printing, files: printingFiles(printing) };
  }
  const at: JobPath = own === undefined ? ['printing'] : [...path, 'printing'];
  const { printer } = written as { readonly printer?: string };
  const profile = printer === undefined ? undefined : inFolder(context.folder, printer);
  const printing = { ...takeKeys(printingFields, written, at), ...given({ printer: profile }) };
  checked(
    () => {
      checkPrinting(printing);
    },
    written,
    at,
  );
  return { printing, files: printingFiles(printing) };
}
