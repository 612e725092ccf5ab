import { inDigits, parseSpan, type SpanResidual } from '@gaugerod/core/pure';
import { spanInText } from './command.js';
import { element, make } from './element.js';
import type { Line, State } from './state.js';

/** Lines as fields: their lengths and their ends. */
export interface LinesForm {
  /**
   * Show them as they are now.
   *
   * @param state - What was said.
   * @param residuals - How each stands to the others, where that is known.
   */
  readonly update: (state: State, residuals: readonly SpanResidual[]) => void;
}

/** What is done with a line's fields. */
export interface LinesUse {
  /**
   * Say something else of a line.
   *
   * @param index - Which.
   * @param line - What of it.
   */
  readonly change: (index: number, line: Partial<Line>) => void;
  /**
   * Take a line away.
   *
   * @param index - Which.
   */
  readonly remove: (index: number) => void;
}

interface Row {
  readonly length: HTMLInputElement;
  readonly ends: HTMLInputElement;
  readonly told: HTMLElement;
}

/**
 * Make the fields of lines.
 *
 * @param use - What is done with them.
 * @returns The fields.
 */
export function createLinesForm(use: LinesUse): LinesForm {
  const box = element('lines', HTMLDivElement);
  let rows: Row[] = [];
  let built = '';
  return {
    update: (state, residuals) => {
      const { way, lines, thing, known } = state;
      const shown = way === 'count' ? lines.slice(0, 1) : lines;
      const measured = (way === 'line' && thing === 'own') || way === 'corners';
      const isThere = way === 'line' || way === 'count' || (way === 'corners' && known === 'line');
      box.hidden = !isThere;
      if (!isThere) return;
      const shape = `${shown.length} ${measured} ${way}`;
      if (shape !== built) {
        built = shape;
        box.replaceChildren();
        rows = shown.map((_, i) => addRow(box, { index: i, measured, of: shown.length }, use));
      }
      for (const [i, { length, ends, told }] of rows.entries()) {
        const line = shown[i];
        if (line === undefined) continue;
        fill(length, line.length);
        fill(ends, spanInText(line.span));
        told.textContent = rows.length > 1 ? standing(residuals[i]) : '';
      }
    },
  };
}

// Not under the hands of whoever types.
function fill(field: HTMLInputElement, text: string): void {
  if (field.value !== text && document.activeElement !== field) field.value = text;
}

function standing(residual: SpanResidual | undefined): string {
  if (residual === undefined) return '';
  const { residualPercent, used, px } = residual;
  const off = `${residualPercent >= 0 ? '+' : '−'}${inDigits(Math.abs(residualPercent), 2)} %`;
  return `${inDigits(px)} px, ${off} from all${used ? '' : ', left out'}`;
}

interface RowPlace {
  readonly index: number;
  readonly measured: boolean;
  readonly of: number;
}

function addRow(box: HTMLElement, { index, measured, of }: RowPlace, use: LinesUse): Row {
  const row = make('div', { class: 'line-row', role: 'group' });
  const name = of > 1 ? `Line ${index + 1}` : 'The line';
  row.setAttribute('aria-label', name);
  const length = make('input', { placeholder: '3.6m', spellcheck: 'false', id: `length-${index}` });
  const ends = make('input', { spellcheck: 'false', class: 'ends', id: `ends-${index}` });
  const told = make('p', { class: 'note' });
  length.addEventListener('input', () => {
    use.change(index, { length: length.value });
  });
  ends.addEventListener('change', () => {
    const span = readEnds(ends.value);
    if (span !== null) use.change(index, { span });
    ends.toggleAttribute('aria-invalid', span === null);
  });
  if (measured) row.append(make('label', { for: length.id }, `${name} is, really`), length);
  row.append(make('label', { for: ends.id, class: 'small' }, `${name} goes from and to, px`), ends);
  if (of > 1) {
    const away = make('button', { type: 'button', class: 'quiet' }, `Remove line ${index + 1}`);
    away.addEventListener('click', () => {
      use.remove(index);
    });
    row.append(told, away);
  }
  box.append(row);
  return { length, ends, told };
}

function readEnds(text: string): Line['span'] | null {
  try {
    return parseSpan(text, 'line');
  } catch {
    return null;
  }
}
