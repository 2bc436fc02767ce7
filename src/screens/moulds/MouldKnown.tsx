import { cavityCount } from '#calc/cavity-layout.ts';
import type { ColdLine } from '#calc/cold-line.ts';
import type { Columns } from '#calc/columns.ts';
import { frozenMould } from '#calc/line-up.ts';
import { mouldMassG, partMlOf, sprueMlOf } from '#calc/mould-size.ts';
import { firstSetSec, ownOpensNeeded, ownSetSec } from '#calc/set-clock.ts';
import { skinC } from '#calc/skin.ts';
import type { Material, Mould } from '#model/mould.ts';
import { lineDegrees } from '#screens/moulds/degrees.ts';
import { clockWords, countWords, tempWords } from '#screens/words.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  mould: Mould;
  settings: SettingsFacts;
  columns: readonly Columns[];
  line: ColdLine;
}

/** What the table takes for true about this mould, and where each of it comes from. */
export function MouldKnown({ mould, settings, columns, line }: Props) {
  return (
    <Sheet title="What the table goes by" isFolded>
      <p>{weightWords(mould)}</p>
      <p>{heatWords(mould, settings, line)}</p>
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

function heatWords(mould: Mould, settings: SettingsFacts, line: ColdLine): string {
  const { tempUnit, pourC, ambientC } = settings;
  if (mould.material !== 'aluminium') {
    const skin = (material: Material) => tempWords(skinC(material, pourC, ambientC), tempUnit);
    const chills = `No cold flag: ${mould.material} hardly chills the plastic.`;
    const meets = `${skin(mould.material)}, cold aluminium at ${skin('aluminium')}`;
    return `${chills} The bait's skin meets it at ${meets}.`;
  }
  const learnt = mould.heat
    ? 'How it warms was learnt from your thermometer readings.'
    : 'How it warms is worked out. One thermometer reading at the table makes it better.';
  return `${lineWords(line, tempUnit)} ${learnt}`;
}

function lineWords({ aboveK, from }: ColdLine, unit: 'C' | 'F'): string {
  if (aboveK === null) return 'No shot counts as cold: none of its first shots was worse.';
  const words = `A shot is cold while the mould is under ${lineDegrees(aboveK, unit)} above the shop`;
  if (from === 'usual') return `${words}.`;
  return from === 'shots'
    ? `${words}, learnt from where its first shots turn good.`
    : `${words}, learnt from the temperatures of its shots.`;
}

function clockSentence(mould: Mould, columns: readonly Columns[]): string {
  if (mould.hasNoClock) return 'No clock: you open it by eye.';
  if (mould.setSec !== null) return `Set time ${clockWords(mould.setSec)}, your choice.`;
  const { ownOpensSec } = frozenMould(mould, columns);
  const opens = ownOpensSec.length;
  const ownSec = ownSetSec(ownOpensSec);
  if (ownSec !== null) {
    return `Set time ${clockWords(ownSec)}, the middle of your last ${opens} opens of good shots.`;
  }
  const needed = `Your own opens of good shots take over: ${opens} of ${ownOpensNeeded} so far.`;
  return mould.section
    ? `Set time worked out from its thickest part. ${needed}`
    : `Set time ${clockWords(firstSetSec)} to begin with. ${needed}`;
}

function volumeSentence(mould: Mould): string {
  const from = (own: number | null) => (own === null ? 'guessed' : 'measured');
  const part = `${partMlOf(mould)} mL a bait (${from(mould.partMl)})`;
  return `${part}, ${sprueMlOf(mould)} mL sprue (${from(mould.sprueMl)}).`;
}
