import type { Shot, Table } from '#calc/table.ts';
import type { Said } from '#model/entry.ts';
import type { Instant } from '#model/schemas.ts';
import type { Panel } from '#screens/pour/EntryRow.tsx';
import { isToCheck, matterOf, type OpenLine } from '#screens/pour/open-line.ts';
import { type MarkedShot, PutRightResults } from '#screens/pour/PutRightResults.tsx';
import { PutRightTime } from '#screens/pour/PutRightTime.tsx';
import { PutRightValue } from '#screens/pour/PutRightValue.tsx';

interface Props {
  panel: Panel;
  open: OpenLine;
  onSave: (says: Said, happenedAt: Instant) => void;
  /** Logs shots that nobody has logged yet. */
  onCheck: (said: Said) => void;
  onLeave: () => void;
}

/** What is open under a chosen line: its map, its value or its time. */
export function PutRight({ panel, open, onSave, onCheck, onLeave }: Props) {
  const { line, table } = open;
  const { said } = line;
  if (panel === 'right' && said.kind === 'opened') {
    return (
      <PutRightResults
        shots={said.shots.flatMap(({ shotId, results }) =>
          marked(
            table,
            table.shots.find(({ id }) => id === shotId),
            results,
          ),
        )}
        onSave={(shots) => {
          // A shot whose fill was taken back has no map; it stays as it was.
          const kept = said.shots.map(
            (shot) => shots.find(({ shotId }) => shotId === shot.shotId) ?? shot,
          );
          onSave({ ...said, shots: kept }, line.at);
        }}
        onLeave={onLeave}
      />
    );
  }
  if (panel === 'right' && isToCheck(line, table)) {
    const waiting = table.shots.filter((s) => s.filledBy === line.id && s.loggedAt === null);
    return (
      <PutRightResults
        shots={waiting.flatMap((shot) => marked(table, shot, shot.results))}
        onSave={(shots) => onCheck({ kind: 'opened', shots })}
        onLeave={onLeave}
      />
    );
  }
  if (panel === 'right' && matterOf(said) === 'value') {
    return <PutRightValue open={open} onSave={onSave} onLeave={onLeave} />;
  }
  return <PutRightTime open={open} onSave={onSave} onLeave={onLeave} />;
}

function marked(
  table: Table,
  shot: Shot | undefined,
  results: MarkedShot['results'],
): MarkedShot[] {
  const seat = table.allSeats.find(({ mould }) => mould.mouldId === shot?.mouldId);
  return shot && seat ? [{ shot, mould: seat.mould, results }] : [];
}
