/** Script addresses of this app: the service worker and the workers, as they are added. */
const ours = new Set<string>(['./sw.js']);

const policy = window.trustedTypes?.createPolicy('sw', { createScriptURL: checked });

/**
 * The only road from text to the address of a script. Throws a TypeError for an address that is
 * not one of ours.
 */
export function trustedScript(url: string): string {
  // The DOM's types do not know trusted addresses yet: they pass for text.
  return policy ? (policy.createScriptURL(url) as unknown as string) : checked(url);
}

/**
 * Adds a script that the build named: main knows its address, which carries a checksum of its text.
 * Throws a TypeError for one from outside of this app's own folder.
 */
export function addScript(url: string): void {
  const home = new URL('./', document.baseURI).href;
  if (!new URL(url, home).href.startsWith(home)) throw new TypeError(`Not of this app: ${url}`);
  ours.add(url);
}

function checked(url: string): string {
  if (!ours.has(url)) throw new TypeError(`Not a script of this app: ${url}`);
  return url;
}
