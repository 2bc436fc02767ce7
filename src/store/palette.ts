import type { SettingsFacts } from '#store/settings.ts';

/**
 * Mirrors the palette where a script can read it before the first paint (`public/palette.js`): the
 * logbook answers too late for that. The logbook stays the one that counts.
 */
export function mirrorPalette(palette: SettingsFacts['palette']): void {
  try {
    localStorage.setItem('warmshot-palette', palette);
  } catch {
    // Full, or closed to this page: the next launch begins light and then changes.
  }
}
