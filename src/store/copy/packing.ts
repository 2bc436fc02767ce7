import { limits } from '#store/copy/limits.ts';
import { refusal, whyOf } from '#store/copy/refusal.ts';

/** Small bites, so that what comes out of one is bounded: gzip makes at most 1,032 bytes of one. */
const biteBytes = 16_384;

type Bytes = Uint8Array<ArrayBuffer>;

/** The bytes packed by gzip (RFC 1952), as they come. */
export async function* packedBytes(plain: AsyncGenerator<Bytes>): AsyncGenerator<Bytes> {
  yield* partsOf(streamOf(plain).pipeThrough(new CompressionStream('gzip')));
}

/**
 * The bytes unpacked again. What comes out is counted while it comes: more than `most`, or far more
 * than was put in, is refused as `too-big` before it is held.
 */
export async function* unpackedBytes(
  packed: AsyncGenerator<Bytes>,
  most: number,
): AsyncGenerator<Bytes> {
  let failure: unknown;
  let bytesIn = 0;
  let bytesOut = 0;
  async function* bites() {
    try {
      for await (const part of packed) {
        for (let at = 0; at < part.length; at += biteBytes) {
          const bite = part.slice(at, at + biteBytes);
          bytesIn += bite.length;
          yield bite;
        }
      }
    } catch (error) {
      failure = error;
      throw error;
    }
  }
  try {
    const out = partsOf(streamOf(bites()).pipeThrough(new DecompressionStream('gzip')));
    for await (const part of out) {
      bytesOut += part.length;
      const fair = bytesIn * limits.outPerByte + limits.outBytesFree;
      if (bytesOut > Math.min(most, fair)) throw refusal('too-big');
      yield part;
    }
  } catch (error) {
    // The stream's own word for anything wrong is a TypeError; what went wrong before it tells more.
    throw failure ?? (whyOf(error) ? error : refusal('damaged'));
  }
}

function streamOf(from: AsyncGenerator<Bytes>): ReadableStream<Bytes> {
  return new ReadableStream<Bytes>(
    {
      async pull(controller) {
        const { value, done } = await from.next();
        if (done) controller.close();
        else controller.enqueue(value);
      },
      async cancel() {
        await from.return(undefined);
      },
    },
    { highWaterMark: 0 },
  );
}

async function* partsOf(stream: ReadableStream<Bytes>): AsyncGenerator<Bytes> {
  const reader = stream.getReader();
  try {
    while (true) {
      const { value, done } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => {});
  }
}
