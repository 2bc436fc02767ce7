import { useShop } from '#live/shop.ts';
import { ageWords } from '#screens/copy-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { UnlockForm } from '#screens/UnlockForm.tsx';
import { Work } from '#screens/Work.tsx';
import { heldWords } from '#screens/what-words.ts';
import { countWords } from '#screens/words.ts';
import { type Told, useTesting } from '#screens/workshop/use-testing.ts';
import { FileKey } from '#ui/FileKey.tsx';

/** Opens a copy to its end and says what it holds; nothing of it is taken in. */
export function TestCopy() {
  const { clock } = useShop();
  const { stage, trouble, test, leave, stop } = useTesting();
  const say = ({ counts, faults, madeAt }: Told) =>
    `${
      faults === 0
        ? 'This copy is whole'
        : `${countWords(faults, 'record')} of this copy cannot be brought in again`
    }. It was made ${ageWords(madeAt, clock.now(), clock.zone())} and holds ${heldWords(counts)}.`;
  if (stage.at === 'reading') {
    return <Work title="Testing the copy" share={stage.share} onStop={stop} />;
  }
  if (stage.at === 'words') {
    const { file, typed } = stage;
    return (
      <UnlockForm
        file={file}
        typed={typed}
        trouble={trouble}
        onWords={(words) => void test(file, words)}
        onLeave={leave}
      />
    );
  }
  return (
    <>
      <FileKey word="Test a copy" accept="" onFile={(file) => void test(file, null)} />
      {stage.at === 'told' && <p role="status">{say(stage.told)}</p>}
      <Refusal says={trouble} />
    </>
  );
}
