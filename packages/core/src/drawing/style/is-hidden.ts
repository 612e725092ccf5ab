/**
 * Tell whether an element is seen. Whatever else is stated than the four words makes no sense, or
 * hands on what holds outside: `inherit`, `unset`, `revert`.
 *
 * @param stated - Its visibility, or undefined.
 * @param outer - Whether what it stands in is hidden.
 * @returns Whether it is hidden.
 * @see CSS 2.2, 11.2: visibility; CSS Cascading and Inheritance Level 4, 7.3
 */
export function isHidden(stated: string | undefined, outer: boolean): boolean {
  const word = stated?.trim().toLowerCase();
  if (word === 'hidden' || word === 'collapse') return true;
  return word === 'visible' || word === 'initial' ? false : outer;
}
