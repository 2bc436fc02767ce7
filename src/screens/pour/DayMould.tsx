import { pictureSize, spotsOf } from '#calc/cavity-layout.ts';
import type { MouldYield } from '#calc/yields.ts';
import type { FrozenMould } from '#model/mould.ts';
import { ribbonOf, ribbonWords } from '#screens/ribbon.ts';
import { hrefTo } from '#screens/routes.ts';
import { ofWords, worstOf } from '#screens/yield-words.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { GridPicture } from '#ui/GridPicture.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ShotRibbon } from '#ui/ShotRibbon.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

/** One mould on one day: its shots, and where in it the bad ones were. */
export function DayMould({ own, mould }: { own: MouldYield; mould: FrozenMould | undefined }) {
  const { good, checked, notChecked } = own.tally;
  const worst = worstOf(own);
  return (
    <Sheet title={own.name} aside={`${ofWords(good, checked)} good`}>
      <ShotRibbon shots={ribbonOf(own)} label={ribbonWords(own)} height="low" />
      {mould && <Picture own={own} mould={mould} worst={worst?.cavity ?? null} />}
      <p>
        {worst
          ? `Cavity ${worst.cavity} was bad most: ${ofWords(worst.bad, worst.checked)}.`
          : wholeWords(checked - good)}
        {notChecked > 0 && ` ${notChecked} not checked.`}
      </p>
      <TwinTable
        heads={['Cavity', 'Bad', 'Looked at']}
        rows={own.byCavity.map(({ bad, checked: looked }, index) => [index + 1, bad, looked])}
      />
      <ActKey href={hrefTo({ at: 'mould', mouldId: own.mouldId })}>All of {own.name}</ActKey>
    </Sheet>
  );
}

function Picture(props: { own: MouldYield; mould: FrozenMould; worst: number | null }) {
  const { own, mould, worst } = props;
  const size = pictureSize(mould.layout);
  return (
    <GridPicture
      {...size}
      size="large"
      cells={spotsOf(mould.layout, mould.opens).map(({ cavity, row, col }) => {
        const { bad = 0, checked = 0 } = own.byCavity[cavity - 1] ?? {};
        return {
          number: cavity,
          row,
          col,
          share: checked === 0 ? 0 : bad / checked,
          isClosed: checked === 0 && mould.closed.includes(cavity),
          isWorst: cavity === worst,
          words: bad === 0 ? '' : size.cols > 3 ? String(bad) : ofWords(bad, checked),
        };
      })}
    />
  );
}

function wholeWords(bad: number): string {
  return bad === 0 ? 'None was bad.' : 'No cavity stands apart.';
}
