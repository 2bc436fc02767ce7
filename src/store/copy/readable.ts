import type { Book } from '#store/book.ts';
import { toBase64 } from '#store/copy/base64.ts';
import type { Watch } from '#store/copy/file.ts';
import { mayGoOn } from '#store/copy/refusal.ts';
import { sourceOf, untilStill } from '#store/copy/take.ts';
import { ladder } from '#store/ladder.ts';

/** Text is put together up to here, then becomes a piece that the browser may lay on disk. */
const pieceLength = 1_000_000;

/**
 * Everything the logbook holds as one JSON text for people and other programs: `tables` by name, each
 * a list of its records as they are stored, a picture's bytes in base64 (RFC 4648); `setAside` holds
 * what could not be read. A running session is in `entries`.
 */
export async function readableFile(
  book: Book,
  from: { at: number; version: string },
  watch: Watch = {},
): Promise<Blob> {
  return await untilStill(() => written(book, from, watch));
}

async function written(
  book: Book,
  { at, version }: { at: number; version: string },
  { onShare, signal }: Watch,
): Promise<Blob> {
  const source = await sourceOf(book, true);
  const total = Object.values(source.counts).reduce((sum, count) => sum + count, 0);
  const head = { app: version, at: new Date(at).toISOString(), shape: ladder.length };
  const pieces: Blob[] = [];
  let text = `${JSON.stringify({ ...head, counts: source.counts }).slice(0, -1)},"tables":{`;
  let table = '';
  let done = 0;
  for await (const one of source.records) {
    mayGoOn(signal);
    if (one.table !== table) {
      text += `${table ? '],' : ''}\n"${one.table}":[\n`;
      table = one.table;
    } else text += ',\n';
    text += JSON.stringify(one.record, (_, value) =>
      value instanceof ArrayBuffer ? toBase64(new Uint8Array(value)) : value,
    );
    if (text.length > pieceLength) {
      pieces.push(new Blob([text]));
      text = '';
    }
    done += 1;
    if (done % 50 === 0) onShare?.(done / total);
  }
  const aside = await book.db.getAll('meta', IDBKeyRange.bound('aside ', 'aside \uffff'));
  text += `${table ? ']' : ''}},\n"setAside":${JSON.stringify(aside)}}\n`;
  onShare?.(1);
  return new Blob([...pieces, text], { type: 'application/json' });
}
