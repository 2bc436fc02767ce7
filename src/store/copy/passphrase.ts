import { wordlist } from '@scure/bip39/wordlists/english.js';

const words = 6;

/**
 * Six words drawn by chance, each from 2,048: 66 bits. The list is that of @scure/bip39, whose
 * words differ in their first four letters.
 */
export function sixWords(): string {
  // 2,048 divides 65,536: every word is as likely as every other.
  const drawn = crypto.getRandomValues(new Uint16Array(words));
  return Array.from(drawn, (value) => wordlist[value % wordlist.length]).join(' ');
}
