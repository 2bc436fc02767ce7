/** Paints a picture; the paper is `width` by `height`. */
type Painter = (paper: CanvasRenderingContext2D, width: number, height: number) => void;

/** A picture file of the browser's own encoder. */
export async function aPicture(
  size: readonly [width: number, height: number],
  paint: Painter,
  type: 'image/jpeg' | 'image/png' | 'image/webp' = 'image/jpeg',
): Promise<Uint8Array<ArrayBuffer>> {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = size;
  const paper = canvas.getContext('2d');
  if (!paper) throw new Error('There is nothing to paint on.');
  paint(paper, ...size);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, type, 0.95));
  if (blob?.type !== type) throw new Error(`This browser writes no ${type}.`);
  return new Uint8Array(await blob.arrayBuffer());
}

/** All of one colour. */
export const plain =
  (colour: string): Painter =>
  (paper, width, height) => {
    paper.fillStyle = colour;
    paper.fillRect(0, 0, width, height);
  };

/** Left half red, right half blue. */
export const redAndBlue: Painter = (paper, width, height) => {
  plain('#c81e1e')(paper, width, height);
  paper.fillStyle = '#1e1ec8';
  paper.fillRect(width / 2, 0, width / 2, height);
};

/** Points of chance, which no encoder can make small. `chance` gives 0 to 1. */
export const noise =
  (chance: () => number): Painter =>
  (paper, width, height) => {
    const image = paper.createImageData(width, height);
    for (let at = 0; at < image.data.length; at++) {
      image.data[at] = at % 4 === 3 ? 255 : Math.floor(chance() * 256);
    }
    paper.putImageData(image, 0, 0);
  };

/** Where the secret shop of `withPlace` lies: 52 deg 31 min 12.34 s north, 13 deg 24 min 17.89 s east. */
export const secretPlace = {
  latitude: [52, 1, 31, 1, 1234, 100],
  longitude: [13, 1, 24, 1, 1789, 100],
  words: '52,31.2057N',
  maker: 'Glasswren 7',
} as const;

/**
 * The JPEG with what a phone writes into it: an Exif segment with maker, orientation and GPS, an XMP
 * packet and a comment that name the place too. Exif 2.32 (CIPA DC-008) and TIFF 6.0: little-endian,
 * IFD0 at 8 with Make 0x010F, Orientation 0x0112 and GPSInfo 0x8825; in the GPS directory 1 N, 2
 * latitude, 3 E, 4 longitude as three rationals each. Segments as in ITU-T T.81 annex B.
 */
export function withPlace(
  jpeg: Uint8Array<ArrayBuffer>,
  orientation: number = 1,
): Uint8Array<ArrayBuffer> {
  const { latitude, longitude, words, maker } = secretPlace;
  const entries = (list: readonly (readonly [number, number, number, number[]])[]) => [
    ...u16(list.length),
    ...list.flatMap(([tag, type, count, value]) => [
      ...u16(tag),
      ...u16(type),
      ...u32(count),
      ...[...value, 0, 0, 0, 0].slice(0, 4),
    ]),
    ...u32(0),
  ];
  const gpsAt = 8 + 2 + 3 * 12 + 4;
  const dataAt = gpsAt + 2 + 4 * 12 + 4;
  const makerText = [...text(maker), 0];
  const tiff = [
    ...text('II'),
    ...u16(42),
    ...u32(8),
    ...entries([
      [0x010f, 2, makerText.length, u32(dataAt + 48)],
      [0x0112, 3, 1, u16(orientation)],
      [0x8825, 4, 1, u32(gpsAt)],
    ]),
    ...entries([
      [1, 2, 2, [...text('N'), 0]],
      [2, 5, 3, u32(dataAt)],
      [3, 2, 2, [...text('E'), 0]],
      [4, 5, 3, u32(dataAt + 24)],
    ]),
    ...latitude.flatMap(u32),
    ...longitude.flatMap(u32),
    ...makerText,
  ];
  const xmp = `http://ns.adobe.com/xap/1.0/\0<x:xmpmeta exif:GPSLatitude="${words}"/>`;
  return Uint8Array.from([
    ...jpeg.subarray(0, 2),
    ...segment(0xe1, [...text('Exif'), 0, 0, ...tiff]),
    ...segment(0xe1, text(xmp)),
    ...segment(0xfe, text(`Taken at ${words}`)),
    ...jpeg.subarray(2),
  ]);
}

/** How often traces of `withPlace` stand in these bytes, by any of its words or numbers. */
export function placesIn(bytes: Uint8Array): number {
  const { latitude, longitude, words, maker } = secretPlace;
  const traces = [
    latitude.flatMap(u32),
    longitude.flatMap(u32),
    text(words),
    text(maker),
    text('Exif'),
    text('GPSLatitude'),
    text('http://ns.adobe.com'),
  ];
  const all = binary(bytes);
  return traces.reduce(
    (sum, trace) => sum + all.split(binary(Uint8Array.from(trace))).length - 1,
    0,
  );
}

/** A PNG that says that it is so large and holds nothing more (ISO/IEC 15948: signature and IHDR). */
export function hugePng(widthPx: number, heightPx: number): Uint8Array<ArrayBuffer> {
  const head = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, ...text('IHDR')];
  const big = (value: number) => u32(value).reverse();
  return Uint8Array.from([...head, ...big(widthPx), ...big(heightPx), 8, 6, 0, 0, 0, 0, 0, 0, 0]);
}

function segment(marker: number, body: readonly number[]): number[] {
  return [0xff, marker, ...u16(body.length + 2).reverse(), ...body];
}

function binary(bytes: Uint8Array): string {
  let all = '';
  for (const byte of bytes) all += String.fromCharCode(byte);
  return all;
}

function text(words: string): number[] {
  return [...new TextEncoder().encode(words)];
}

function u16(value: number): number[] {
  return [value & 0xff, (value >> 8) & 0xff];
}

function u32(value: number): number[] {
  return [...u16(value & 0xffff), ...u16(value >>> 16)];
}
