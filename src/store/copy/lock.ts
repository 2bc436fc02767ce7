import { refusal } from '#store/copy/refusal.ts';

/** How a file is locked: all that is needed beside the passphrase. */
export interface Lock {
  by: 'PBKDF2-SHA256';
  rounds: number;
  /** 16 bytes, hex. */
  salt: string;
  /** 16 bytes, hex: tells a wrong passphrase from a damaged file. */
  check: string;
  cipher: 'AES-256-GCM';
  /** First 7 of the 12 nonce bytes, hex; the number of the chunk and its last flag follow. */
  nonce: string;
}

/** Guards one chunk: closes it for writing, opens it for reading. */
export interface Guard {
  close(plain: Uint8Array<ArrayBuffer>, place: Place): Promise<Uint8Array<ArrayBuffer>>;
  /** Throws `damaged` when the chunk is not the one that was written at this place. */
  open(closed: Uint8Array<ArrayBuffer>, place: Place): Promise<Uint8Array<ArrayBuffer>>;
}

/** Where a chunk stands: its number, whether it is the last, and the file it belongs to. */
export interface Place {
  index: number;
  isLast: boolean;
  headerHash: Uint8Array;
}

/** OWASP Password Storage Cheat Sheet: at least 600,000 for PBKDF2 with SHA-256. */
const rounds = 1_000_000;
const hashBytes = 32;

/** A fresh lock and the key to it. */
export async function newLock(words: string): Promise<{ lock: Lock; guard: Guard }> {
  const salt = hexOf(crypto.getRandomValues(new Uint8Array(16)));
  const nonce = hexOf(crypto.getRandomValues(new Uint8Array(7)));
  const { key, check } = await keysFrom(words, salt, rounds);
  const lock: Lock = { by: 'PBKDF2-SHA256', rounds, salt, check, cipher: 'AES-256-GCM', nonce };
  return { lock, guard: lockedGuard(key, nonce) };
}

/** The key to a lock. Throws `wrong-words` when the passphrase is another one. */
export async function unlocked(lock: Lock, words: string): Promise<Guard> {
  const { key, check } = await keysFrom(words, lock.salt, lock.rounds);
  if (check !== lock.check) throw refusal('wrong-words');
  return lockedGuard(key, lock.nonce);
}

/** Guards a file without a passphrase: each chunk carries the SHA-256 of itself and its place. */
export const plainGuard: Guard = {
  async close(plain, place) {
    return joined(plain, await plainHash(plain, place));
  },
  async open(closed, place) {
    const plain = closed.subarray(0, Math.max(0, closed.length - hashBytes));
    const hash = await plainHash(plain, place);
    if (hexOf(hash) !== hexOf(closed.subarray(plain.length))) throw refusal('damaged');
    return plain;
  },
};

function lockedGuard(key: CryptoKey, nonce: string): Guard {
  const parameters = (place: Place) => ({
    name: 'AES-GCM',
    iv: joined(bytesOf(nonce), numberOf(place)),
    additionalData: joined(place.headerHash, numberOf(place)),
  });
  return {
    async close(plain, place) {
      return new Uint8Array(await crypto.subtle.encrypt(parameters(place), key, plain));
    },
    async open(closed, place) {
      try {
        return new Uint8Array(await crypto.subtle.decrypt(parameters(place), key, closed));
      } catch {
        throw refusal('damaged');
      }
    },
  };
}

/** One key for the contents and 16 bytes to know the passphrase by, from one derivation (RFC 8018, RFC 5869). */
async function keysFrom(words: string, salt: string, iterations: number) {
  const stretched = await stretchedWords(words, salt, iterations);
  const master = await crypto.subtle.importKey('raw', stretched, 'HKDF', false, [
    'deriveBits',
    'deriveKey',
  ]);
  const part = (info: string) => ({
    name: 'HKDF',
    hash: 'SHA-256',
    salt: new Uint8Array(0),
    info: new TextEncoder().encode(info),
  });
  const aes = { name: 'AES-GCM', length: 256 };
  return {
    key: await crypto.subtle.deriveKey(part('warmshot contents'), master, aes, false, [
      'encrypt',
      'decrypt',
    ]),
    check: hexOf(
      new Uint8Array(await crypto.subtle.deriveBits(part('warmshot check'), master, 128)),
    ),
  };
}

/** 32 bytes of a passphrase, slow to come by: PBKDF2 with HMAC-SHA-256 (RFC 8018). `salt` is hex. */
export async function stretchedWords(
  words: string,
  salt: string,
  iterations: number,
): Promise<ArrayBuffer> {
  const typed = new TextEncoder().encode(evened(words));
  const phrase = await crypto.subtle.importKey('raw', typed, 'PBKDF2', false, ['deriveBits']);
  const by = { name: 'PBKDF2', hash: 'SHA-256', salt: bytesOf(salt), iterations };
  return await crypto.subtle.deriveBits(by, phrase, 256);
}

/** A passphrase as it counts: one form of each letter, one space between words, none around. */
export function evened(words: string): string {
  return words.normalize('NFKC').trim().replace(/\s+/g, ' ');
}

async function plainHash(plain: Uint8Array, place: Place): Promise<Uint8Array<ArrayBuffer>> {
  const all = joined(place.headerHash, numberOf(place), plain);
  return new Uint8Array(await crypto.subtle.digest('SHA-256', all));
}

/** The number of a chunk in 4 bytes, the last flag in the fifth. */
function numberOf({ index, isLast }: Place): Uint8Array {
  const bytes = new Uint8Array(5);
  new DataView(bytes.buffer).setUint32(0, index);
  bytes[4] = isLast ? 1 : 0;
  return bytes;
}

/** Some bytes as one run of their own. */
export function joined(...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** Bytes as hex. */
export function hexOf(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function bytesOf(hex: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: hex.length / 2 }, (_, index) =>
    Number.parseInt(hex.slice(index * 2, index * 2 + 2), 16),
  );
}
