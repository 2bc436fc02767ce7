import type { TypedMaterial } from '#screens/shelf/material-form.ts';
import { TextField } from '#screens/shelf/TextField.tsx';
import { ActKey } from '#ui/ActKey.tsx';

interface Props {
  typed: TypedMaterial;
  error: string | undefined;
  onChange: (part: Partial<TypedMaterial>) => void;
}

/** What it looks like; clear stuff has no colour of its own. */
export function LookFields({ typed, error, onChange }: Props) {
  return (
    <>
      <ActKey isPressed={typed.hasSwatch} onPress={() => onChange({ hasSwatch: !typed.hasSwatch })}>
        It has a colour
      </ActKey>
      {typed.hasSwatch && (
        <>
          <TextField
            label="It looks like"
            type="color"
            error={error}
            value={typed.swatch}
            onText={(swatch) => onChange({ swatch })}
          />
          <ActKey
            isPressed={typed.glowsOrChanges}
            onPress={() => onChange({ glowsOrChanges: !typed.glowsOrChanges })}
          >
            It glows, or changes with heat or light
          </ActKey>
        </>
      )}
    </>
  );
}
