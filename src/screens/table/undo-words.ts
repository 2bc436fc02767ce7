import type { Standing } from '#calc/log.ts';
import type { Table } from '#calc/table.ts';
import { countOf } from '#calc/tonight.ts';
import type { ShotId } from '#model/entry.ts';
import type { MouldId } from '#model/mould.ts';

/** What Undo would take back, in two short lines. */
export function undoWords(table: Table, undoes: Standing): readonly [what: string, where: string] {
  const { said } = undoes;
  const mould = (id: MouldId) =>
    table.allSeats.find((seat) => seat.mould.mouldId === id)?.mould.name ?? '';
  const pot = (id: string) => table.pots.find((one) => one.id === id)?.name ?? '';
  switch (said.kind) {
    case 'filled': {
      const round = table.shots.find((shot) => shot.filledBy === undoes.id)?.round;
      return ['Filled', `round ${round ?? table.rounds}`];
    }
    case 'opened':
      return openedWords(table, said.shots);
    case 'clock-stopped':
      return ['Open now', shotMould(table, said.shotId)];
    case 'skipped':
      return [said.isSkipped ? 'Skip' : 'Put back', mould(said.mouldId)];
    case 'cavity-closed':
      return [`${said.isClosed ? 'Close' : 'Open'} ${said.cavity}`, mould(said.mouldId)];
    case 'set-time-chosen':
      return ['Set time', mould(said.mouldId)];
    case 'mould-read':
      return ['Reading', mould(said.mouldId)];
    case 'lined-up':
      return ['Moulds', 'changed'];
    case 'pot-mixed':
      return ['New mix', said.name];
    case 'pot-heated':
      return ['Reheated', pot(said.potId)];
    case 'pot-topped-up':
      return ['Top up', pot(said.potId)];
    case 'pot-read':
      return ['Reading', pot(said.potId)];
    case 'pot-emptied':
      return ['Empty', pot(said.potId)];
    case 'layer-poured':
      return ['Layer', pot(said.potId)];
    case 'layers-ended':
      return ['Last layer', shotMould(table, said.shotId)];
    case 'pot-chosen':
      return ['Pour from', pot(said.potIds[0] ?? '')];
    case 'injector-taken':
      return ['Injector', said.injector?.name ?? 'none'];
    case 'tray-counted':
      return ['Count', 'tray'];
    case 'tried':
      return ['Trial', shotMould(table, said.shotId)];
    case 'colours-planned':
      return ['Colours', 'in order'];
    case 'pourer-named':
      return [said.name, 'pours'];
    case 'ambient-read':
      return ['Shop', 'reading'];
    case 'laminate-judged':
      return ['Balance', ''];
    case 'noted':
      return ['Note', ''];
    default:
      return ['', ''];
  }
}

function shotMould(table: Table, shotId: ShotId): string {
  const shot = table.shots.find(({ id }) => id === shotId);
  return table.allSeats.find(({ mould }) => mould.mouldId === shot?.mouldId)?.mould.name ?? '';
}

function openedWords(
  table: Table,
  shots: readonly { shotId: string; results: readonly string[] }[],
): readonly [string, string] {
  const count = countOf(shots.flatMap((shot) => shot.results) as never);
  const first = table.shots.find(({ id }) => id === shots[0]?.shotId);
  const name = table.allSeats.find(({ mould }) => mould.mouldId === first?.mouldId)?.mould.name;
  const where = shots.length > 1 ? `${shots.length} moulds` : (name ?? '');
  if (count.bad > 0) return [`${count.bad} bad`, where];
  return [count.good > 0 || count.notChecked === 0 ? 'All good' : 'Check later', where];
}
