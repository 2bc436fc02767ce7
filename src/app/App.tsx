import { useEffect, useRef } from 'preact/hooks';
import { behindTable, landing } from '#app/landing.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useHash } from '#live/use-route.ts';
import { whenIdle } from '#platform/idle.ts';
import { hrefTo, type Route, routeOf } from '#screens/routes.ts';
import { TableScreen } from '#screens/table/TableScreen.tsx';
import { openDoor } from '#store/door.ts';
import { footingOf, footingTables } from '#store/footing.ts';
import { mirrorPalette } from '#store/palette.ts';
import { type SettingsFacts, settingsOf } from '#store/settings.ts';
import { late, whenNoneWaits } from '#ui/late.tsx';
import styles from './App.module.css';

// The table is in the first load: nothing in a session waits for a file. All else comes after it.
const DeskScreen = late(async () => (await import('#app/Screen.tsx')).Screen);
const frame = () => import('#app/frame.ts');
const PlaceBar = late(async () => (await frame()).PlaceBar);
const Notices = late(async () => (await frame()).Notices);

/** Screens without the bar of places, so that a sleeve cannot leave them. */
const plain = new Set<Route['at']>([
  'table',
  'start',
  'cautions',
  'line-up',
  'glove-check',
  'drops',
]);

/** The frame around the screens: palette, route, bar. */
export function App() {
  const { book, holdSession, leaveDemo } = useShop();
  const wasAtTable = useRef(false);
  const isRunning = useRef(false);
  const hash = useHash((back) => (isRunning.current ? behindTable(back) : back));
  const settings = useLive(() => settingsOf(book), ['settings'], 'settings');
  const footing = useLive(() => footingOf(book), footingTables, 'footing');
  useEffect(() => {
    void openDoor().catch(() => {});
    Notices.load();
    return whenIdle(() => {
      void fetchLater().catch(() => {});
    });
  }, []);
  const palette = settings?.palette;
  useEffect(() => {
    if (!palette) return;
    wear(palette);
    // The demo shop's choice is not the person's.
    if (!leaveDemo) mirrorPalette(palette);
  }, [palette, leaveDemo]);
  const hasRunning = footing?.hasRunning ?? false;
  isRunning.current = hasRunning;
  // Held by every window and on every screen: a session goes on while somebody reads a page.
  useEffect(() => (hasRunning ? holdSession() : undefined), [hasRunning, holdSession]);
  const route = footing && landing(routeOf(hash), footing);
  const address = route && hrefTo(route);
  useEffect(() => {
    if (address && address !== hash) window.location.replace(address);
  }, [address, hash]);
  if (!settings || !route) return null;

  wasAtTable.current ||= route.at === 'table';
  const isPlain = plain.has(route.at);
  return (
    <div class={styles.desk} data-plain={isPlain || undefined}>
      {!isPlain && (
        <Notices
          at={route.at}
          address={address}
          isPouring={hasRunning}
          wasAtTable={wasAtTable.current}
        />
      )}
      {route.at === 'table' ? (
        <TableScreen key={address} />
      ) : (
        <DeskScreen key={address} route={route} />
      )}
      {!isPlain && <PlaceBar at={route.at} />}
    </div>
  );
}

/** Fetches what other addresses show, once the one that was asked for is drawn. */
async function fetchLater(): Promise<void> {
  const { loadLaterScreens } = await import('#app/Screen.tsx');
  await new Promise<void>((done) => whenIdle(done));
  await whenNoneWaits();
  loadLaterScreens();
}

/** Puts on a palette; the device's own bars take the colour of the bench. */
function wear(palette: SettingsFacts['palette']): void {
  const page = document.documentElement;
  page.dataset.theme = palette;
  const bench = getComputedStyle(page).getPropertyValue('--bench');
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', bench.trim());
}
