import { Field, GroupField, tie } from './field.tsx'
import type { EntryProps } from './field.tsx'
import { writeDay } from './day.ts'

export interface TextEntryProps extends EntryProps {
  readonly value: string
  readonly type?: 'text' | 'email' | 'tel' | 'search' | 'password'
  readonly autocomplete?: string
  /** For whole numbers and decimals: lettering, and digits on a phone. */
  readonly isNumber?: boolean
  /** Id of a datalist whose options are offered. */
  readonly list?: string
}

/** One line of text or a number without a unit. */
export function TextEntry(props: TextEntryProps): JSX.Element {
  return (
    <Field entry={props}>
      <div class="entry">
        <input {...tie(props)} type={props.type ?? 'text'} value={props.value} class={[props.isNumber === true && 'count']}
          inputmode={props.isNumber === true ? 'decimal' : undefined} autocomplete={props.autocomplete ?? 'off'} list={props.list} />
      </div>
    </Field>
  )
}

/** Several lines. */
export function LongEntry(props: EntryProps & { readonly value: string }): JSX.Element {
  // A line break directly after the tag is not part of the value; without it a leading one would be lost.
  return <Field entry={props}><div class="entry"><textarea {...tie(props)} rows="4" safe>{`\n${props.value}`}</textarea></div></Field>
}

export interface QuantityEntryProps extends EntryProps {
  readonly value: string
  /** What a bare number is taken to be in; an entry may bring its own unit, as "3/4 in". */
  readonly unit: string
  /** How the saved value reads in the other system, as "595.3 mm". */
  readonly reads?: string | undefined
}

/** A quantity: the unit stands inside the frame unless the entry brings its own. */
export function QuantityEntry(props: QuantityEntryProps): JSX.Element {
  const bringsUnit = /\p{L}\S*\s*$/u.test(props.value)
  return (
    <Field entry={props}>
      <div class="entry">
        <input {...tie(props)} type="text" value={props.value} class="count" inputmode={bringsUnit ? 'text' : 'decimal'} autocomplete="off" />
        {bringsUnit ? '' : <span class="unit" safe>{props.unit}</span>}
      </div>
      {props.reads === undefined ? '' : <p class="reads" safe>{`= ${props.reads}`}</p>}
    </Field>
  )
}

export interface Option { readonly value: string, readonly label: string }

export interface ChoiceEntryProps extends EntryProps {
  readonly value: string
  readonly options: readonly Option[]
  /** What stands for "nothing chosen"; left out where something always is. */
  readonly none?: string | undefined
}

/** One of a list. */
export function ChoiceEntry(props: ChoiceEntryProps): JSX.Element {
  return (
    <Field entry={props}>
      <div class="entry">
        <select {...tie(props)}>
          {props.none === undefined ? '' : <option value="" selected={props.value === ''} safe>{props.none}</option>}
          {props.options.map(({ value, label }) => <option value={value} selected={value === props.value} safe>{label}</option>)}
        </select>
      </div>
    </Field>
  )
}

export interface ChecksEntryProps extends EntryProps {
  readonly values: readonly string[]
  readonly options: readonly Option[]
}

/** Any number of a list: every tick is sent under the same name. */
export function ChecksEntry(props: ChecksEntryProps): JSX.Element {
  return (
    <GroupField entry={props}>
      <div class="ways">
        {props.options.length === 0 ? <span class="quiet">None to choose from yet.</span> : ''}
        {props.options.map(({ value, label }) => (
          <label><input type="checkbox" name={props.name} value={value} checked={props.values.includes(value)}
            aria-invalid={props.problem === undefined ? false : 'true'} /><span safe>{label}</span></label>
        ))}
      </div>
    </GroupField>
  )
}

/** One tick, sent as "true". */
export function CheckEntry(props: EntryProps & { readonly value: boolean, readonly says: string }): JSX.Element {
  return (
    <Field entry={props}>
      <div class="ways">
        <label><input {...tie(props)} type="checkbox" value="true" checked={props.value} /><span safe>{props.says}</span></label>
      </div>
    </Field>
  )
}

/** A calendar date, YYYY-MM-DD; the browser brings its own way to choose. */
export function DateEntry(props: EntryProps & { readonly value: string }): JSX.Element {
  const isDate = /^\d{4}-\d{2}-\d{2}$/.test(props.value)
  return (
    <Field entry={props}>
      <div class="entry">
        <input {...tie(props)} type={isDate || props.value === '' ? 'date' : 'text'} value={props.value} class="count" autocomplete="off" />
      </div>
      {isDate ? <p class="reads" safe>{writeDay(props.value)}</p> : ''}
    </Field>
  )
}
