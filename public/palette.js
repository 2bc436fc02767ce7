// Puts on the palette that was worn last before anything is painted: the logbook that knows it opens
// only later, and a light flash in a dark shop blinds. A file of its own, because the content policy
// allows no script inside the page. What it reads is a mirror, written by src/store/palette.ts.
(() => {
  try {
    if (localStorage.getItem('warmshot-palette') !== 'lamp') return;
    document.documentElement.dataset.theme = 'lamp';
    document.querySelector('meta[name="theme-color"]').content = '#1a2127';
  } catch {
    // Storage is closed to this page: the light palette stays until the logbook is open.
  }
})();
