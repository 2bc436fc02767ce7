/**
 * Fetches a late file of the app. A browser may keep the failure of an address for as long as the page
 * lives (Chromium 150 does): whoever asks again is answered without a look. So each further try goes
 * under an address of its own, which the worker and every static host answer with the same file; from the
 * first that works on, everybody gets that one.
 */
async function fetchAgain(file) {
  for (let isLast = false; ; isLast = true) {
    const tries = fetchAgain[file] ?? 0;
    try {
      return await import(tries === 0 ? file : `${file}?${tries}`);
    } catch (error) {
      // Of two that fail at once the first moves on for both.
      if ((fetchAgain[file] ?? 0) === tries) fetchAgain[file] = tries + 1;
      if (isLast) throw error;
    }
  }
}

/**
 * A Vite plugin: every late file that cannot be fetched is asked for once more, and anew at every further
 * need. Vite's own helper around each of them fetches what such a file needs ahead of it, and its styles:
 * here nothing is (one sheet, no preload), so it goes (1 kB of the first load).
 */
export function againIfItFails() {
  return {
    name: 'again-if-it-fails',
    apply: 'build',
    enforce: 'pre',
    load(id) {
      return id === '\0vite/preload-helper.js'
        ? 'export const __vitePreload = (load) => load();'
        : null;
    },
    renderChunk(code) {
      const asked = code.replace(/\bimport\((?=["'`]\.\/)/g, 'fetchAgain(');
      return asked === code ? null : { code: `${asked}\n${fetchAgain}\n`, map: null };
    },
  };
}
