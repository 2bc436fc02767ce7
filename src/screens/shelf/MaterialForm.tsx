import { useShop } from '#live/shop.ts';
import type { Material } from '#model/material.ts';
import { amountUnitWords, type Units } from '#screens/amounts.ts';
import { FormSheet } from '#screens/FormSheet.tsx';
import { useForm } from '#screens/form.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { FlakeFields } from '#screens/shelf/FlakeFields.tsx';
import { KindKeys } from '#screens/shelf/KindKeys.tsx';
import { LookFields } from '#screens/shelf/LookFields.tsx';
import { materialFrom, typedMaterial } from '#screens/shelf/material-form.ts';
import { PackageFields } from '#screens/shelf/PackageFields.tsx';
import { TextField } from '#screens/shelf/TextField.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { addHead, changeHead } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';

interface Props {
  material: Material | null;
  units: Units;
  /** Its journal is written in its unit, which then stays. */
  hasJournal: boolean;
}

/** The form of one material. Every refusal stands beside its field and nothing typed is lost. */
export function MaterialForm({ material, units, hasJournal }: Props) {
  const { book, clock } = useShop();
  const { typed, change, refusals, refuse, form } = useForm(typedMaterial(material, units));
  const { act, trouble } = useOneAct();

  function save() {
    const { value, refusals: wrong } = materialFrom(typed, material);
    if (!value) return refuse(wrong);
    void act(async () => {
      const saved = material
        ? await changeHead(book, 'materials', material.id, value, clock.now())
        : await addHead(book, 'materials', value, clock.now());
      return { at: 'material', materialId: saved.id };
    });
  }

  return (
    <FormSheet form={form} onSend={save}>
      <TextField
        label="Name"
        error={refusals.name}
        value={typed.name}
        onText={(name) => change({ name })}
      />
      <KindKeys typed={typed} units={units} hasJournal={hasJournal} onChange={change} />
      <PackageFields typed={typed} units={units} refusals={refusals} onChange={change} />
      {typed.kind === 'flake' && (
        <FlakeFields typed={typed} error={refusals.flakeMm} onChange={change} />
      )}
      {typed.stockUnit === 'mL' && (
        <TextField
          label="1 mL weighs, in g"
          hint={`For the scale. Empty: ${typed.kind === 'plastisol' ? '1.05' : typed.kind === 'softener' ? '0.973' : '1'} ${amountUnitWords.g}.`}
          error={refusals.density}
          value={typed.density}
          mode="decimal"
          onText={(density) => change({ density })}
        />
      )}
      <LookFields typed={typed} error={refusals.swatch} onChange={change} />
      <ActKey isPressed={typed.isAside} onPress={() => change({ isAside: !typed.isAside })}>
        Set aside: not offered any more
      </ActKey>
      {Object.keys(refusals).length > 0 && <p role="status">Something above does not fit yet.</p>}
      <ActKey size="main" sends>
        {material ? 'Save the changes' : 'Add this material'}
      </ActKey>
      <Refusal says={trouble} />
    </FormSheet>
  );
}
