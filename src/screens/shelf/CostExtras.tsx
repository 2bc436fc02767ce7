import { moneyWords } from '#screens/amounts.ts';
import { Refusal } from '#screens/Refusal.tsx';
import type { Jar } from '#screens/shelf/shelf-view.ts';
import { useSettings } from '#screens/use-settings.ts';
import { countWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';

/** Steps of an hour's worth: one whole unit of money. */
const stepCents = 100;
const mostCents = 100_000;

/** What is counted beside the material: bags, and the person's time if they want. */
export function CostExtras({
  jars,
  settings,
}: {
  jars: readonly Pick<Jar, 'material'>[];
  settings: SettingsFacts;
}) {
  const { change, trouble } = useSettings();
  const hasBags = jars.some(({ material }) => material.kind === 'bag' && !material.isAside);
  const perBag = settings.baitsPerBag ?? 0;
  const hour = settings.hourCents ?? 0;
  const stepBag = (by: number) =>
    change((now) => {
      const next = Math.min(1_000, (now.baitsPerBag ?? 0) + by);
      return { baitsPerBag: next < 1 ? undefined : next };
    });
  const stepHour = (by: number) =>
    change((now) => ({
      hourCents: Math.min(mostCents, Math.max(0, (now.hourCents ?? 0) + by * stepCents)),
    }));
  return (
    <Sheet title="Counted with it">
      <h3>Baits in a bag</h3>
      <Stepper
        label="Baits in a bag"
        value={perBag === 0 ? 'No bag' : countWords(perBag, 'bait')}
        small={hasBags ? 'the bag by its own price' : 'add the bag as a material for its price'}
        lessName="One bait less"
        moreName="One bait more"
        onLess={() => stepBag(-1)}
        onMore={() => stepBag(1)}
      />
      <h3>An hour of yours</h3>
      <Stepper
        label="An hour of yours"
        value={hour === 0 ? 'Not counted' : moneyWords(hour)}
        small="by the time the sessions took"
        lessName="1.00 less"
        moreName="1.00 more"
        onLess={() => stepHour(-1)}
        onMore={() => stepHour(1)}
      />
      <Refusal says={trouble} />
    </Sheet>
  );
}
