import * as z from 'zod/mini';
import { toMl } from '#calc/units.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { type Injector, type InjectorId, injectorFacts } from '#model/gear.ts';
import { readForm, useForm } from '#screens/form.ts';
import { numberFrom, volumeText, volumeUnitWords } from '#screens/number-text.ts';
import { hrefTo } from '#screens/routes.ts';
import type { VolumeUnit } from '#screens/volumes.ts';
import { addHead, changeHead, headOf, setDeleted } from '#store/heads.ts';
import { settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

const facts = z.object(injectorFacts);

/** What is known about an injector; null: a new one. */
export function InjectorFactsScreen({ injectorId }: { injectorId: InjectorId | null }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      injector: injectorId ? ((await headOf(book, 'injectors', injectorId)) ?? null) : null,
      unit: (await settingsOf(book)).volumeUnit,
    }),
    ['injectors', 'settings'],
    injectorId ?? 'new',
  );
  if (!found) return null;
  return (
    <DeskPage
      title={found.injector?.name ?? 'A new injector'}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="back" word="Workshop" />}
    >
      <InjectorForm {...found} />
    </DeskPage>
  );
}

function InjectorForm({ injector, unit }: { injector: Injector | null; unit: VolumeUnit }) {
  const { book, clock } = useShop();
  const { typed, change, refusals, setRefusals } = useForm({
    name: injector?.name ?? '',
    capacityMl: injector ? volumeText(injector.capacityMl, unit) : '',
    boreMm: injector?.boreMm == null ? '' : String(injector.boreMm),
    isTwin: injector?.isTwin ?? false,
  });

  async function save(event: Event) {
    event.preventDefault();
    const held = numberFrom(typed.capacityMl);
    const capacity = held !== null && held > 0 ? held : null;
    const bore = typed.boreMm.trim() === '' ? null : numberFrom(typed.boreMm);
    const own: Record<string, string> = {};
    if (capacity === null) own.capacityMl = 'Write a number above 0, like 4 or 4,5.';
    if (bore === null && typed.boreMm.trim() !== '') {
      own.boreMm = 'Write a number, like 38 or 38,1. Or leave it empty.';
    }
    const capacityMl = toMl(capacity ?? 1, unit);
    const read = readForm(facts, { ...typed, capacityMl, boreMm: bore });
    const all = { ...read.refusals, ...own };
    if (!read.value || Object.keys(all).length > 0) return setRefusals(all);
    if (injector) await changeHead(book, 'injectors', injector.id, read.value, clock.now());
    else await addHead(book, 'injectors', read.value, clock.now());
    window.location.hash = hrefTo({ at: 'workshop' });
  }

  const text = (field: 'name' | 'capacityMl' | 'boreMm') => ({
    value: typed[field],
    onInput: (event: Event) => change({ [field]: (event.target as HTMLInputElement).value }),
  });
  return (
    <form onSubmit={(event) => void save(event)} noValidate>
      <Sheet>
        <Field label="Name" error={refusals.name}>
          {(attributes) => <input {...attributes} {...text('name')} autocomplete="off" />}
        </Field>
        <Field label={`Holds, in ${volumeUnitWords[unit]}`} error={refusals.capacityMl}>
          {(attributes) => <input {...attributes} {...text('capacityMl')} inputMode="decimal" />}
        </Field>
        <Field
          label="Bore in mm"
          hint="Inside width of the barrel. Leave it empty if you do not know."
          error={refusals.boreMm}
        >
          {(attributes) => <input {...attributes} {...text('boreMm')} inputMode="decimal" />}
        </Field>
        <Acts label="Barrels">
          <ActKey isPressed={!typed.isTwin} onPress={() => change({ isTwin: false })}>
            Single
          </ActKey>
          <ActKey isPressed={typed.isTwin} onPress={() => change({ isTwin: true })}>
            Twin
          </ActKey>
        </Acts>
        <ActKey size="main" sends>
          {injector ? 'Save the changes' : 'Add this injector'}
        </ActKey>
        {injector && (
          <ActKey
            onPress={() =>
              void setDeleted(book, 'injectors', injector.id, clock.now(), clock.now()).then(() => {
                window.location.hash = hrefTo({ at: 'workshop' });
              })
            }
          >
            Take off the list
          </ActKey>
        )}
      </Sheet>
    </form>
  );
}
