import { cavityCount } from '#calc/cavity-layout.ts';
import type { Columns } from '#calc/columns.ts';
import { frozenMould } from '#calc/line-up.ts';
import { mouldMassG, partMlOf, sprueMlOf } from '#calc/mould-size.ts';
import { defaultWarmAboveK } from '#calc/warmth.ts';
import type { Mould } from '#model/mould.ts';
import { lineDegrees } from '#screens/moulds/degrees.ts';
import { clockWords, countWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  mould: Mould;
  settings: SettingsFacts;
  columns: readonly Columns[];
}

/** What the table takes for true about this mould, and where each of it comes from. */
export function MouldKnown({ mould, settings, columns }: Props) {
  return (
    <Sheet title="What the table goes by">
      <p>{weightWords(mould)}</p>
      <p>{heatWords(mould, settings)}</p>
      <p>{clockSentence(mould, columns)}</p>
      <p>{volumeSentence(mould)}</p>
    </Sheet>
  );
}

function weightWords(mould: Mould): string {
  const { massG, from } = mouldMassG(mould);
  const kg = (massG / 1_000).toFixed(1);
  const cavities = countWords(cavityCount(mould.layout), 'cavity', 'cavities');
  return from === 'weighed'
    ? `Weight ${kg} kg, as you weighed it.`
    : `Weight about ${kg} kg, guessed from ${cavities}.`;
}

function heatWords(mould: Mould, settings: SettingsFacts): string {
  if (mould.material !== 'aluminium') {
    const material = mould.material === 'stone' ? 'Stone' : 'Silicone';
    return `No cold flag: ${material.toLowerCase()} hardly chills the plastic.`;
  }
  const learnt = mould.heat
    ? 'How it warms was learnt from your thermometer readings.'
    : 'How it warms is worked out. One thermometer reading at the table makes it better.';
  return `A shot is cold while the mould is under ${lineDegrees(defaultWarmAboveK, settings.tempUnit)} above the shop. ${learnt}`;
}

function clockSentence(mould: Mould, columns: readonly Columns[]): string {
  if (mould.hasNoClock) return 'No clock: you open it by eye.';
  if (mould.setSec !== null) return `Set time ${clockWords(mould.setSec)}, your choice.`;
  const opens = frozenMould(mould, columns).ownOpensSec.length;
  if (opens >= 5) return `Set time: the middle of your last ${opens} opens of good shots.`;
  const so = `${countWords(opens, 'open')} so far, 5 are needed`;
  return mould.section
    ? `Set time worked out from its thickest part. Your own opens take over: ${so}.`
    : `Set time 3:00 to begin with. Your own opens take over: ${so}.`;
}

function volumeSentence(mould: Mould): string {
  const part = `${partMlOf(mould)} mL a bait`;
  const sprue = `${sprueMlOf(mould)} mL sprue`;
  const isMeasured = mould.partMl !== null && mould.sprueMl !== null;
  return `${part}, ${sprue}${isMeasured ? ', as you measured.' : ': a first guess.'}`;
}
