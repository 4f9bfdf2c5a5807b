/** Form fields: label, entry, unit, hint and problem, connected for keyboard and screen reader. */
import type { ComponentChildren, VNode } from 'preact';
import { useId } from 'preact/hooks';

interface FieldProps {
  label: string;
  hint?: string | undefined;
  problem?: string | undefined;
}

function Field({
  label,
  hint,
  problem,
  children,
}: FieldProps & { children: (ids: { id: string; describedBy: string | undefined }) => ComponentChildren }): VNode {
  const id = useId();
  const describedBy = [hint && `${id}-hint`, problem && `${id}-problem`].filter(Boolean).join(' ') || undefined;
  return (
    <div class={problem ? 'field wrong' : 'field'}>
      <label for={id}>{label}</label>
      {children({ id, describedBy })}
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {problem && (
        <p class="problem" id={`${id}-problem`}>
          {problem}
        </p>
      )}
    </div>
  );
}

export function TextField({
  value,
  onInput,
  unit,
  lines,
  decimal,
  placeholder,
  suggestions,
  ...field
}: FieldProps & {
  value: string;
  onInput: (value: string) => void;
  unit?: string | undefined;
  lines?: number | undefined;
  /** Shows the number keys of a phone; both comma and point are accepted. */
  decimal?: boolean;
  placeholder?: string | undefined;
  /** Usual entries to choose from; any other may be typed. */
  suggestions?: readonly string[];
}): VNode {
  return (
    <Field {...field}>
      {({ id, describedBy }) => (
        <span class="entry">
          {lines ? (
            <textarea
              id={id}
              rows={lines}
              value={value}
              aria-describedby={describedBy}
              aria-invalid={field.problem !== undefined}
              onInput={(event) => onInput(event.currentTarget.value)}
            />
          ) : (
            <input
              id={id}
              type="text"
              inputMode={decimal ? 'decimal' : 'text'}
              autocomplete="off"
              value={value}
              placeholder={placeholder}
              list={suggestions && `${id}-usual`}
              aria-describedby={describedBy}
              aria-invalid={field.problem !== undefined}
              onInput={(event) => onInput(event.currentTarget.value)}
            />
          )}
          {unit && <span class="unit">{unit}</span>}
          {suggestions && (
            <datalist id={`${id}-usual`}>
              {suggestions.map((each) => (
                <option key={each} value={each} />
              ))}
            </datalist>
          )}
        </span>
      )}
    </Field>
  );
}

type ClockProps = FieldProps & { value: string; onInput: (value: string) => void };

/** A date and a time of day, as the device's own control writes it: 2026-05-02T10:05:00. */
export function MomentField(props: ClockProps): VNode {
  return <ClockField {...props} control={{ type: 'datetime-local', step: '1' }} />;
}

/** A time of day, as the device's own control writes it: 14:05. */
export function TimeOfDayField(props: ClockProps): VNode {
  return <ClockField {...props} control={{ type: 'time' }} />;
}

function ClockField({
  value,
  onInput,
  control,
  ...field
}: ClockProps & { control: { type: 'datetime-local' | 'time'; step?: string } }): VNode {
  return (
    <Field {...field}>
      {({ id, describedBy }) => (
        <input
          {...control}
          id={id}
          value={value}
          aria-describedby={describedBy}
          aria-invalid={field.problem !== undefined}
          onInput={(event) => onInput(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}

export function SelectField<T extends string>({
  value,
  onChange,
  options,
  ...field
}: FieldProps & {
  value: T;
  onChange: (value: T) => void;
  options: readonly (readonly [T, string])[];
}): VNode {
  return (
    <Field {...field}>
      {({ id, describedBy }) => (
        <select
          id={id}
          value={value}
          aria-describedby={describedBy}
          aria-invalid={field.problem !== undefined}
          onChange={(event) => onChange(event.currentTarget.value as T)}
        >
          {options.map(([key, text]) => (
            <option key={key} value={key}>
              {text}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

/** A few alternatives in a row, one of them selected. */
export function Choice<T extends string>({
  label,
  value,
  onChange,
  options,
  hint,
  problem,
}: {
  label: string;
  value: T;
  onChange: (value: T) => void;
  options: readonly (readonly [T, string])[];
  hint?: string | undefined;
  problem?: string | undefined;
}): VNode {
  const name = useId();
  return (
    <fieldset class={problem ? 'choice wrong' : 'choice'} aria-describedby={problem && `${name}-problem`}>
      <legend>{label}</legend>
      <div class="choice-row">
        {options.map(([key, text]) => (
          <label key={key}>
            <input type="radio" name={name} value={key} checked={value === key} onChange={() => onChange(key)} />
            <span>{text}</span>
          </label>
        ))}
      </div>
      {hint && <p class="hint">{hint}</p>}
      {problem && (
        <p class="problem" id={`${name}-problem`}>
          {problem}
        </p>
      )}
    </fieldset>
  );
}

export function CheckField({
  label,
  checked,
  onChange,
}: {
  label: string;
  checked: boolean;
  onChange: (checked: boolean) => void;
}): VNode {
  return (
    <label class="check">
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.currentTarget.checked)} />
      <span>{label}</span>
    </label>
  );
}
