import { promise, allFinite, type Reader } from './reader.js';

/** What a parser of one value is given. */
type Parse = (text: string, name: string) => unknown;

/** A reader of short texts. */
export interface TextReaderOptions extends Pick<Reader, 'name' | 'words' | 'tried'> {
  /** Whole ones. */
  readonly texts: readonly string[];
  /** All that read them, by name. */
  readonly parsers: Readonly<Record<string, Parse>>;
}

/**
 * Make a reader of texts that people type: each is read by all of its parsers.
 *
 * @param options - Which.
 * @returns It.
 */
export function textReader(options: TextReaderOptions): Reader {
  const { texts, parsers, ...rest } = options;
  return {
    ...rest,
    seeds: () => texts.map((text) => Buffer.from(text)),
    read: (bytes) => {
      const text = bytes.toString();
      for (const [name, parse] of Object.entries(parsers)) {
        try {
          allFinite(parse(text, `--${name}`), name);
        } catch (error) {
          // Caught so that each has its turn.
          if (!(error instanceof RangeError) || !error.message.startsWith('expected ')) throw error;
          const { message } = error;
          promise(!/[\n\r]/.test(message), `${name} tells why in one line`);
          promise(message.length < 1200, `${name} tells why in a line that can be read`);
          promise(message.includes(`--${name}`), `${name} names the option`);
        }
      }
    },
  };
}
