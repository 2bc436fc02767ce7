/** A key of a pedal or keyboard in words, from its `code` or `key`: `Page Down`, `B`, `Digit 1`. */
export function keyWords(name: string): string {
  return name
    .replace(/^Key(?=[A-Z]$)/, '')
    .replace(/^UIKeyInput/, '')
    .replace(/(?<=[a-z])(?=[A-Z0-9])/g, ' ');
}

/** Several keys in words; none: what is said instead. */
export function keysWords(names: readonly string[], none: string): string {
  return names.length > 0 ? names.map(keyWords).join(', ') : none;
}

/** Words for the sizes of the table's lesser keys. */
export const keySizeWords = { usual: 'Usual', large: 'Large', largest: 'Largest' } as const;
