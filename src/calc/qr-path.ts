import encodeQR from 'qr';

/** A QR code as one path of unit squares, and its width with the quiet zone around it. */
export interface QrPath {
  path: string;
  size: number;
}

/** The quiet zone that ISO/IEC 18004 asks for, modules. */
const quiet = 4;
/** More than this does not read off a phone's glass. */
export const mostQrLetters = 1_400;

/** The QR code (ISO/IEC 18004) of a plain text; null: it is too long to be read off a glass. */
export function qrPath(text: string): QrPath | null {
  if (text.length > mostQrLetters) return null;
  const modules = encodeQR(text, 'raw', { ecc: 'low', border: quiet });
  const path = modules
    .flatMap((row, y) => row.map((isDark, x) => (isDark ? `M${x} ${y}h1v1h-1z` : '')))
    .join('');
  return { path, size: modules.length };
}
