import { dayOf } from '#calc/days.ts';
import { type DoseChange, mixDifference } from '#calc/mix-difference.ts';
import { useShop } from '#live/shop.ts';
import type { Mix } from '#model/mix.ts';
import type { MixBook } from '#screens/colours/use-mix-book.ts';
import { doseWords } from '#screens/dose-words.ts';
import { hrefTo } from '#screens/routes.ts';
import { dateWords } from '#screens/words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Mix.module.css';

interface Props {
  of: MixBook;
  name: string;
  shown: Mix;
  onShow: (mix: Mix) => void;
}

/** Every version: what it has otherwise than the one before, and when it was poured. */
export function Versions({ of: { versions, pours }, name, shown, onShow }: Props) {
  const { clock } = useShop();
  const today = dayOf(clock.now(), clock.zone());
  return (
    <Sheet title="Versions">
      <ol class={styles.versions}>
        {versions.map((mix, index) => {
          const before = versions[index + 1];
          const poured = pours.get(mix.id) ?? [];
          const changes = before
            ? [...mixDifference(before, mix).map(changeWords), ...remeltWords(before, mix)]
            : [];
          return (
            <li key={mix.id}>
              <h3>
                {name} {mix.version}
              </h3>
              {before &&
                (changes.length > 0 ? (
                  <p>{changes.join(' ')}</p>
                ) : (
                  <p class={styles.quiet}>Poured alike, written anew.</p>
                ))}
              {poured.length > 0 ? (
                <p class={styles.pours}>
                  {poured.slice(0, 6).map(({ sessionId, at, zone }) => (
                    <a key={sessionId} href={hrefTo({ at: 'session', sessionId })}>
                      {dateWords(dayOf(at, zone), today)}
                    </a>
                  ))}
                </p>
              ) : (
                <p class={styles.quiet}>Not poured yet.</p>
              )}
              {mix.id !== shown.id && (
                <ActKey onPress={() => onShow(mix)}>
                  Show {name} {mix.version}
                </ActKey>
              )}
            </li>
          );
        })}
      </ol>
    </Sheet>
  );
}

const roleWords = { only: '', a: 'A: ', b: 'B: ', core: 'Core: ', tail: 'Tail: ' } as const;

/** One dose that is not as it was: `Black 3 drops instead of 2 drops.` */
export function changeWords({ role, name, unit, before, after }: DoseChange): string {
  const where = roleWords[role];
  if (before === null) return `${where}${name} added, ${doseWords(after ?? 0, unit)}.`;
  if (after === null) return `${where}${name} left out.`;
  return `${where}${name} ${doseWords(after, unit)} instead of ${doseWords(before, unit)}.`;
}

/** Sides that take old plastic now, or no more. */
function remeltWords(before: Mix, after: Mix): string[] {
  return after.sides.flatMap(({ role, hasRemelt = false }) => {
    const was = before.sides.find((side) => side.role === role)?.hasRemelt ?? false;
    if (was === hasRemelt) return [];
    return [`${roleWords[role]}${hasRemelt ? 'Old plastic goes in.' : 'No old plastic any more.'}`];
  });
}
