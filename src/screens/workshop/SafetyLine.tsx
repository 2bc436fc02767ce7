import type { SafetyState } from '#live/safety.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { useSafety } from '#live/use-safety.ts';
import { ageWords } from '#screens/copy-words.ts';
import { copiesOf } from '#store/copy/since.ts';

/** One line of what keeps the log: the browser's promise, the last copy, its test. */
export function SafetyLine() {
  const { book, clock } = useShop();
  const { isPromised } = useSafety();
  const copies = useLive(() => copiesOf(book), ['meta'], 'copies');
  if (!copies) return null;
  const { last, tested } = copies;
  const age = (at: number) => ageWords(at, clock.now(), clock.zone());
  const isOfLast = last && tested && tested.madeAt === last.at && tested.device === book.device;
  const other = tested ? ` Another copy was tested ${age(tested.at)}.` : '';
  return (
    <p>
      {keptWords(isPromised)} {last ? `Last copy ${age(last.at)}` : 'No copy has left this phone'}
      {isOfLast && tested
        ? `, tested ${age(tested.at)}.`
        : `${last ? ', not tested' : ''}.${other}`}
    </p>
  );
}

function keptWords(isPromised: SafetyState['isPromised']): string {
  if (isPromised === undefined) return '';
  if (isPromised === null) return 'The browser makes no promise to keep this.';
  return isPromised ? 'Kept by the browser.' : 'The browser may clear this.';
}
