import { useEffect } from 'preact/hooks';
import { landing } from '#app/landing.ts';
import { PlaceBar } from '#app/PlaceBar.tsx';
import { Screen } from '#app/Screen.tsx';
import { UpdateNotice } from '#app/UpdateNotice.tsx';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useHash } from '#live/use-route.ts';
import { type Route, routeOf } from '#screens/routes.ts';
import { footingOf } from '#store/footing.ts';
import { settingsOf } from '#store/settings.ts';
import styles from './App.module.css';

/** Screens without the bar of places, so that a sleeve cannot leave them. */
const plain = new Set<Route['at']>(['table', 'start', 'cautions', 'line-up']);

/** The frame around the screens: palette, route, bar. */
export function App() {
  const { book } = useShop();
  const hash = useHash();
  const settings = useLive(() => settingsOf(book), ['settings'], 'settings');
  const footing = useLive(() => footingOf(book), ['entries', 'sealed', 'moulds'], 'footing');
  useEffect(() => {
    document.documentElement.dataset.theme = settings?.palette ?? 'chalk';
  }, [settings?.palette]);
  if (!settings || !footing) return null;

  const route = landing(routeOf(hash), footing);
  const isPlain = plain.has(route.at);
  return (
    <div class={styles.desk} data-plain={isPlain || undefined}>
      {route.at !== 'table' && <UpdateNotice />}
      <Screen key={`${hash} ${route.at}`} route={route} />
      {!isPlain && <PlaceBar at={route.at} />}
    </div>
  );
}
