import { heatMarks } from '#calc/heat-marks.ts';
import type { Table } from '#calc/table.ts';
import type { MouldYield } from '#calc/yields.ts';
import type { MouldId } from '#model/mould.ts';
import { HeatLine } from '#screens/pour/HeatLine.tsx';
import { MouldLane } from '#screens/pour/MouldLane.tsx';
import { shotWords } from '#screens/ribbon.ts';
import { RibbonKey } from '#ui/RibbonKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  table: Table;
  yields: readonly MouldYield[];
  /** The shot the hand is at. */
  chosen: { mouldId: MouldId; number: number } | null;
  onPress: (mouldId: MouldId, number: number) => void;
}

/** Every shot of a session in ribbons, with its heats. */
export function EveryShot({ table, yields, chosen, onPress }: Props) {
  return (
    <Sheet title="Every shot">
      {yields.map((own) => (
        <MouldLane
          key={own.mouldId}
          own={own}
          chosen={chosen?.mouldId === own.mouldId ? chosen.number : null}
          onPress={(number) => onPress(own.mouldId, number)}
          nameOf={(shot) => shotWords(own.name, shot)}
        />
      ))}
      <HeatLine marks={heatMarks(table)} zone={table.zone} />
      <RibbonKey />
      <p>Press a shot to find its entry.</p>
    </Sheet>
  );
}
