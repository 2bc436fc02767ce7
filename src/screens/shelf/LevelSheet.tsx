import { dayOf } from '#calc/days.ts';
import { firstUnitOf, usualDropMl } from '#calc/dose-steps.ts';
import { openedOf } from '#calc/opened.ts';
import { isLevelTold } from '#calc/stock-level.ts';
import { useShop } from '#live/shop.ts';
import { flakeWords, moneyWords, stockWords, type Units } from '#screens/amounts.ts';
import { JarPicture } from '#screens/shelf/JarPicture.tsx';
import { priceWords } from '#screens/shelf/price-words.ts';
import { type Jar, leftWords, missingWords, reasonWords } from '#screens/shelf/shelf-view.ts';
import { countWords, dateWords } from '#screens/words.ts';
import { Figure } from '#ui/Figure.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './LevelSheet.module.css';

/** What is there: the jar, the level, and how sure that is. */
export function LevelSheet({ jar, units }: { jar: Jar; units: Units }) {
  const { clock } = useShop();
  const { material, stock, left, reason, share, price } = jar;
  const [count = '', ...rest] = stockWords(stock.level, material.unit, units).split(' ');
  const dateOf = (at: number) =>
    dateWords(dayOf(at, clock.zone()), dayOf(clock.now(), clock.zone()));
  const opened = openedOf(stock);
  const isTold = isLevelTold(stock);
  const went = missingWords(jar, units);
  const lines = [
    stock.missing > 0 &&
      (isTold
        ? `${went} more went than was written down. Count it to start again.`
        : `${went} went so far. Count what is there, and its level is known from then on.`),
    stock.level > 0 && dropsLeft(jar),
    left !== null && stock.level > 0 && `${sentence(leftWords(jar, units))}, by your own mixes.`,
    reason && reason !== 'out' && `${reasonWords[reason]}: it is on the list of what to buy.`,
    material.reorderAt !== null &&
      `To buy at ${stockWords(material.reorderAt, material.unit, units)} or less.`,
    priceWords(jar, units, clock.now()),
    price.worthCents > 0 && `What is there cost ${moneyWords(price.worthCents)}.`,
    material.flake && `Flake of ${flakeWords(material.flake)}.`,
    opened &&
      `Opened ${dateOf(opened.at)}${opened.lot && `, lot ${opened.lot}`}: ${ageWords(opened.at, clock.now())}.`,
    stock.seenAt === null ? 'Never counted.' : `Last looked at on ${dateOf(stock.seenAt)}.`,
  ];
  return (
    <Sheet>
      <div class={styles.level}>
        <JarPicture share={share} swatch={material.swatch} />
        {!isTold ? (
          <p>Not counted yet.</p>
        ) : (
          <Figure count={count} rest={`${rest.join(' ')} left`} />
        )}
      </div>
      <ul class={styles.words}>{lines.map((line) => line && <li key={line}>{line}</li>)}</ul>
    </Sheet>
  );
}

/** What is there in drops, of a colourant that is dosed by them: a jar's own measure is too coarse for a few. */
function dropsLeft({ material, stock }: Jar): string {
  if (firstUnitOf(material) !== 'drop') return '';
  const drops = Math.round(stock.level / (material.dropMl ?? usualDropMl));
  return `${material.dropMl === null ? 'About ' : ''}${countWords(drops, 'drop')}.`;
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** How long a container has been open. */
function ageWords(from: number, now: number): string {
  const days = Math.max(0, Math.floor((now - from) / 86_400_000));
  return days === 0 ? 'open since today' : `open for ${countWords(days, 'day')}`;
}
