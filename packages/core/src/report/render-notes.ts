import type { Warning } from '../errors/warning.js';
import { advice } from './advice.js';
import { html, type Html } from './html.js';
import { listed } from './in-words.js';
import type { ReportFailure, ReportTerms } from './report-content.js';

/**
 * Tell of what could not be made, each cause with what is missing for it.
 *
 * @param failures - One or more.
 * @returns The list.
 */
export function renderFailures(failures: readonly ReportFailure[]): Html {
  return html`<ol class="notes faults">
    ${failures.map(
      ({ message, hint, lost }) =>
        html`<li>
          <p class="said"><bdi>${message}</bdi></p>
          <dl class="facts">
            <div>
              <dt>Not there for it</dt>
              <dd><bdi>${listed(lost)}</bdi></dd>
            </div>
            ${
              hint === null
                ? null
                : html`<div>
                    <dt>What would work</dt>
                    <dd><bdi>${hint}</bdi></dd>
                  </div>`
            }
          </dl>
        </li> `,
    )}
  </ol>`;
}

/**
 * Tell what there is to know, and what to do about it: once for all warnings of a kind.
 *
 * @param warnings - One or more.
 * @returns The list.
 */
export function renderWarnings(warnings: readonly Warning[]): Html {
  const kinds = new Map<Warning['code'], Set<string>>();
  for (const { code, message } of warnings)
    kinds.set(code, (kinds.get(code) ?? new Set<string>()).add(message));
  // What wants nothing done comes last.
  const sorted = [...kinds].sort(([a], [b]) => Number(isIdle(a)) - Number(isIdle(b)));
  return html`<ol class="notes">
    ${sorted.map(
      ([code, messages]) =>
        html`<li>
          ${[...messages].map((message) => html`<p class="said"><bdi>${message}</bdi></p>`)}
          <p class="todo"><span class="label">What to do</span> ${advice[code]}</p>
        </li> `,
    )}
  </ol>`;
}

function isIdle(code: Warning['code']): boolean {
  return code === 'caution' || advice[code].startsWith('Nothing to do');
}

/**
 * Tell the terms of every photo.
 *
 * @param terms - Of one photo or more.
 * @returns A table, and what it means for whoever sells or publishes.
 */
export function renderTerms(terms: readonly ReportTerms[]): Html {
  const bare = terms.filter(({ licence }) => licence === null);
  const told =
    bare.length === 0
      ? null
      : html`<p>
          No licence is noted for <bdi>${listed(bare.map(({ photo }) => photo))}</bdi>. Without one,
          nothing may be assumed: ask whoever took the photo before you sell, publish or give away
          what shows it. Note what you learn beside the photo:
          <code>gaugerod measure PHOTO --course … --save --licence "…" --credit "…"</code>.
        </p>`;
  return html`<div class="scroll" role="region" aria-label="Terms of every photo" tabindex="0">
      <table>
        <thead>
          <tr>
            <th scope="col">Photo</th>
            <th scope="col">Licence</th>
            <th scope="col">Credit</th>
            <th scope="col">Shown by</th>
          </tr>
        </thead>
        <tbody>
          ${terms.map(
            ({ photo, licence, credit, isOwnCredit, usedBy }) =>
              html`<tr>
                <th scope="row"><bdi>${photo}</bdi></th>
                <td>${noted(licence)}</td>
                <td>${noted(credit)}${isOwnCredit ? html` (from the photo's own data)` : null}</td>
                <td><bdi>${usedBy.length === 0 ? '–' : listed(usedBy)}</bdi></td>
              </tr> `,
          )}
        </tbody>
      </table>
    </div>
    <p>
      A model that is sold, shown in print or online, or handed on as a file, shows these photos
      too. Keep to their licences, and name whom they ask you to name.
    </p>
    ${told}`;
}

function noted(text: string | null): Html {
  return text === null ? html`<em>none noted</em>` : html`<bdi>${text}</bdi>`;
}
