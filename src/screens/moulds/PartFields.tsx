import type { Mould, MouldId, PartKind } from '#model/mould.ts';
import type { TypedMould } from '#screens/moulds/mould-form.ts';
import { partKinds, partsWord, partWords } from '#screens/part-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './Wrap.module.css';

interface Props {
  typed: TypedMould;
  /** The other moulds of the shop that make parts. */
  makers: readonly Mould[];
  onChange: (part: Partial<TypedMould>) => void;
}

const mostEach = 12;
const mostNeeds = 6;
const fills = [
  ['injected', 'Shut, injected'],
  ['by-hand', 'Open, by hand'],
] as const;

/** How it is filled, whether it makes whole baits or parts, and which parts its baits take. */
export function PartFields({ typed, makers, onChange }: Props) {
  const { makes, needs, fill } = typed;
  const set = (mouldId: MouldId, each: number) => {
    const others = needs.filter((need) => need.mouldId !== mouldId);
    if (each === 0) return onChange({ needs: others });
    if (others.length < mostNeeds) onChange({ needs: [...others, { mouldId, each }] });
  };
  return (
    <>
      <p>
        <b>Filled</b>
      </p>
      <Acts label="Filled">
        {fills.map(([one, word]) => (
          <ActKey key={one} isPressed={fill === one} onPress={() => onChange({ fill: one })}>
            {word}
          </ActKey>
        ))}
      </Acts>
      {fill === 'by-hand' && <p>Up to six layers a shot, each from its own pot.</p>}
      <p>
        <b>It makes</b>
      </p>
      <div class={styles.wrap} role="group" aria-label="It makes">
        {[null, ...partKinds].map((one) => (
          <ActKey
            key={one ?? 'bait'}
            isPressed={makes === one}
            onPress={() => onChange({ makes: one })}
          >
            {makesWord(one)}
          </ActKey>
        ))}
      </div>
      {makes && <p>Good {partsWord(makes)} go into a tray. The table counts them.</p>}
      {makers.length > 0 && (
        <>
          <p>
            <b>Each bait takes parts of</b>
          </p>
          <div class={styles.wrap} role="group" aria-label="Each bait takes parts of">
            {makers.map(({ id, name }) => {
              const isTaken = needs.some((need) => need.mouldId === id);
              return (
                <ActKey key={id} isPressed={isTaken} onPress={() => set(id, isTaken ? 0 : 1)}>
                  {name}
                </ActKey>
              );
            })}
          </div>
        </>
      )}
      {makers.map(({ id, name, makes: part }) => {
        const each = needs.find((need) => need.mouldId === id)?.each;
        if (!each || !part) return null;
        return (
          <Stepper
            key={id}
            label={name}
            value={partWords(each, part)}
            small={`of ${name}, in every cavity`}
            lessName={`One ${part} less`}
            moreName={`One ${part} more`}
            onLess={() => set(id, Math.max(1, each - 1))}
            onMore={() => set(id, Math.min(mostEach, each + 1))}
          />
        );
      })}
    </>
  );
}

function makesWord(makes: PartKind | null): string {
  if (makes === null) return 'Whole baits';
  const word = makes === 'part' ? 'other parts' : partsWord(makes);
  return `${word.charAt(0).toUpperCase()}${word.slice(1)}`;
}
