const bite = 0x6000;

/** Bytes as base64 (RFC 4648, section 4). */
export function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  // Whole threes of bytes, so that the parts may be put one after the other.
  for (let at = 0; at < bytes.length; at += bite) {
    parts.push(btoa(String.fromCharCode(...bytes.subarray(at, at + bite))));
  }
  return parts.join('');
}
