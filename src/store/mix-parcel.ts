import type { SharedMix } from '#model/shared-mix.ts';
import { mostLetters } from '#store/sent-mix-in.ts';

/** A mix that came from elsewhere, or the sentence why it is not taken. */
export type Unpacked = { mix: SharedMix; refusal: null } | { mix: null; refusal: string };

/** A file of a mix is a few hundred bytes; nothing that is larger than this is looked at. */
export const mostBytes = 64_000;
const mostDeep = 6;

/** A mix as the text of a file. */
export function mixFile(mix: SharedMix): string {
  return `${JSON.stringify(mix, null, 2)}\n`;
}

/** A mix as text for an address: its JSON deflated (RFC 1951), in base64url (RFC 4648 section 5). */
export async function packMix(mix: SharedMix): Promise<string> {
  const stream = new Blob([JSON.stringify(mix)])
    .stream()
    .pipeThrough(new CompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  return base64url(bytes);
}

/** Reads the text of an address. Never throws, whatever it is. */
export async function unpackMix(packed: string): Promise<Unpacked> {
  if (packed.length > mostLetters) return refused('This link is too long for a mix.');
  const bytes = bytesOf(packed);
  if (!bytes) return refused('This link is damaged. Ask for it again.');
  try {
    const text = await inflated(bytes);
    return text === null ? refused('This link holds too much for a mix.') : await readMix(text);
  } catch {
    return refused('This link is damaged. Ask for it again.');
  }
}

/** Reads a file. Never throws, whatever it is. */
export async function readMixFile(file: Blob): Promise<Unpacked> {
  if (file.size > mostBytes) return refused('This file is too large for a mix.');
  try {
    return await readMix(await file.text());
  } catch {
    // It was moved, or taken away with its card, since it was chosen.
    return refused('This file cannot be read. Choose it again.');
  }
}

/** Reads the text of a file, letter by letter what is wrong with it is told in one sentence. */
export async function readMix(text: string): Promise<Unpacked> {
  if (text.length > mostBytes) return refused('This file is too large for a mix.');
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refused('This is no mix: it cannot be read.');
  }
  if (isTooDeep(value, mostDeep)) return refused('This is no mix: it is nested too deep.');
  const { form } = (value ?? {}) as { form?: unknown };
  if (typeof form === 'number' && form > 1) {
    return refused('This mix was made by a newer app. Update this one first.');
  }
  const { SharedMix } = await import('#model/shared-mix.ts');
  const read = SharedMix.safeParse(value);
  if (!read.success) {
    const [issue] = read.error.issues;
    const where = issue?.path.join(' ') || 'its outline';
    return refused(`This is no mix that can be taken: look at ${where.slice(0, 60)}.`);
  }
  const wrong = wrongIn(read.data);
  return wrong ? refused(wrong) : { mix: read.data, refusal: null };
}

/** What the shapes alone do not say. */
function wrongIn({ sides, materials }: SharedMix): string | null {
  const roles = sides.map(({ role }) => role);
  if (new Set(roles).size < roles.length) return 'This is no mix: it has a side twice.';
  const isPair = roles.includes('a') || roles.includes('b');
  if (isPair && (roles.includes('only') || !(roles.includes('a') && roles.includes('b')))) {
    return 'This is no mix: its sides do not fit together.';
  }
  if (!isPair && !roles.includes('only')) return 'This is no mix: it has no body.';
  const places = sides.flatMap(({ plastisol, doses }) => [
    plastisol ?? 0,
    ...doses.map(({ material }) => material),
  ]);
  const isMissing = places.some((place) => place >= materials.length && place > 0);
  const isBare = materials.length === 0 && sides.some(({ doses }) => doses.length > 0);
  return isMissing || isBare ? 'This is no mix: it names a material that is not in it.' : null;
}

/** True when anything lies deeper, or under a name that reaches into every object. */
function isTooDeep(value: unknown, left: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  if (left === 0) return true;
  return Reflect.ownKeys(value).some(
    (key) =>
      key === '__proto__' ||
      key === 'constructor' ||
      key === 'prototype' ||
      isTooDeep(Reflect.get(value, key), left - 1),
  );
}

/** The text of deflated bytes, counted while it comes out; null: it is more than a mix can be. */
async function inflated(bytes: Uint8Array<ArrayBuffer>): Promise<string | null> {
  const reader = new Blob([bytes])
    .stream()
    .pipeThrough(new DecompressionStream('deflate-raw'))
    .getReader();
  const parts: Uint8Array<ArrayBuffer>[] = [];
  let size = 0;
  while (true) {
    const { done, value } = await reader.read();
    if (done) return await new Blob(parts).text();
    size += value.byteLength;
    if (size > mostBytes) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
}

function base64url(bytes: Uint8Array): string {
  const text = [...bytes].map((byte) => String.fromCharCode(byte)).join('');
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

function bytesOf(packed: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[A-Za-z0-9_-]+$/.test(packed)) return null;
  try {
    const text = atob(packed.replaceAll('-', '+').replaceAll('_', '/'));
    return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}

function refused(refusal: string): Unpacked {
  return { mix: null, refusal };
}
