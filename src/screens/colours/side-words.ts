import type { MixRole } from '#model/mix.ts';

/** What each side of a mix is; the only one needs no word. */
export const sideWords = {
  only: '',
  a: 'Side A',
  b: 'Side B',
  core: 'Core',
  tail: 'Tail',
} as const;

/** What a side is and how it is called, once where both are the same: `Side A: Ink`, `Side A`. */
export function headWords({ role, name }: { role: MixRole; name: string }): string {
  const words = sideWords[role] || 'Body';
  return words === name ? words : `${words}: ${name}`;
}
