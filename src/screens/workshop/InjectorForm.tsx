import { useShop } from '#live/shop.ts';
import type { Injector } from '#model/gear.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { volumeUnitWords } from '#screens/number-text.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { TakeOff } from '#screens/TakeOff.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import type { VolumeUnit } from '#screens/volumes.ts';
import { injectorFrom, typedInjector } from '#screens/workshop/injector-form.ts';
import { addHead, changeHead, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';
import { Field } from '#ui/Field.tsx';

/** The form of one injector, in the person's unit. */
export function InjectorForm(props: { injector: Injector | null; unit: VolumeUnit }) {
  const { injector, unit } = props;
  const { book, clock } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(typedInjector(injector, unit));
  const { act, trouble } = useOneAct();

  function save() {
    const { value, refusals: wrong } = injectorFrom(typed, injector, unit);
    if (!value) return refuse(wrong);
    void act(async () => {
      if (injector) await changeHead(book, 'injectors', injector.id, value, clock.now());
      else await addHead(book, 'injectors', value, clock.now());
      return { at: 'workshop' };
    });
  }

  const fields = [
    ['name', 'Name', undefined],
    ['capacity', `Holds, in ${volumeUnitWords[unit]}`, undefined],
    ['boreMm', 'Bore in mm', 'Inside width of the barrel. Leave it empty if you do not know.'],
  ] as const;
  return (
    <FormSheet form={form} onSend={save}>
      {fields.map(([field, label, hint]) => (
        <Field key={field} label={label} error={refusals[field]} {...(hint ? { hint } : {})}>
          {(attributes) => (
            <input
              {...attributes}
              autocomplete="off"
              inputMode={field === 'name' ? 'text' : 'decimal'}
              value={typed[field]}
              onInput={({ currentTarget }) => change({ [field]: currentTarget.value })}
            />
          )}
        </Field>
      ))}
      <Acts label="Barrels">
        {[false, true].map((isTwin) => (
          <ActKey
            key={String(isTwin)}
            isPressed={typed.isTwin === isTwin}
            onPress={() => change({ isTwin })}
          >
            {isTwin ? 'Twin' : 'Single'}
          </ActKey>
        ))}
      </Acts>
      <ActKey size="main" sends>
        {injector ? 'Save the changes' : 'Add this injector'}
      </ActKey>
      <Refusal says={trouble} />
      {injector && (
        <TakeOff
          deletedAt={injector.deletedAt}
          list={{ at: 'workshop' }}
          onSet={(next, at) => setDeleted(book, 'injectors', injector.id, next, at)}
        />
      )}
    </FormSheet>
  );
}
