import type { Children } from '@kitajs/html'
import { at } from './asset.ts'
import { idOf } from './field.tsx'
import { NumberedTriangle } from './marks.tsx'
import type { FieldProblem } from './viewer.ts'

export { CheckEntry, ChecksEntry, ChoiceEntry, DateEntry, LongEntry, QuantityEntry, TextEntry } from './entries.tsx'
export { problemOf } from './field.tsx'
export type { EntryProps, NumberedProblem } from './field.tsx'
export type { Option } from './entries.tsx'

export interface FormProps {
  readonly action: string
  readonly csrfToken: string
  /** Made anew with each form, kept when it is shown again: the same form sent twice writes once. */
  readonly idempotencyKey: string
  /** The version that was read; left out for something new. */
  readonly version?: number | undefined
  readonly problems?: readonly FieldProblem[] | undefined
  /** What the button says, as "Save operation 50". */
  readonly submit: string
  readonly cancelHref?: string | undefined
  /** A second press of the same form, to another address: to look before it is sent. */
  readonly also?: { readonly action: string, readonly name: string } | undefined
  /** Stands beside the buttons. */
  readonly note?: string | undefined
  /** What was typed into its password fields is never shown again. */
  readonly withPassword?: boolean | undefined
  /** For forms that bring a file. */
  readonly withFile?: boolean | undefined
  /** Entries under their labels even in a wide window. */
  readonly alone?: boolean | undefined
  readonly children: Children
}

/** A form that loses nothing: problems on top and beside their fields, what was typed stays in pencil. */
export function Form(props: FormProps): JSX.Element {
  const problems = props.problems ?? []
  return (
    <>
      {problems.length === 0 ? '' : <ToMend problems={problems} asksPassword={props.withPassword === true} />}
      <form method="post" action={at(props.action)} novalidate data-keep="typed" {...(props.withFile === true ? { enctype: 'multipart/form-data' } : {})}
        class={[props.alone === true && 'alone', problems.length > 0 && 'unsaved']}>
        <input type="hidden" name="_csrf" value={props.csrfToken} />
        <input type="hidden" name="_key" value={props.idempotencyKey} />
        {props.version === undefined ? '' : <input type="hidden" name="_version" value={String(props.version)} />}
        {props.children}
        <div class="deed">
          <button class="button first" type="submit" safe>{props.submit}</button>
          {props.also === undefined ? '' : <button class="button" type="submit" formaction={at(props.also.action)} safe>{props.also.name}</button>}
          {props.cancelHref === undefined ? '' : <a class="link" href={at(props.cancelHref)}>Leave without saving</a>}
          {props.note === undefined ? '' : <span class="quiet" safe>{props.note}</span>}
        </div>
      </form>
    </>
  )
}

/** Fields that belong together, under one head. */
export function Fields({ legend, children }: { legend?: string, children: Children }): JSX.Element {
  return <fieldset class="fields">{legend === undefined ? '' : <legend safe>{legend}</legend>}{children}</fieldset>
}

function ToMend({ problems, asksPassword }: { problems: readonly FieldProblem[], asksPassword: boolean }): JSX.Element {
  return (
    <section class="mend" role="alert" tabindex="-1" {...{ autofocus: true }} aria-labelledby="mend">
      <h2 id="mend">{problems.length} {problems.length === 1 ? 'entry' : 'entries'} to correct. Nothing you typed is lost{asksPassword ? ', but passwords are typed again' : ''}.</h2>
      <ol>
        {problems.map(({ field, message, help }, index) => (
          <li>
            <NumberedTriangle number={index + 1} /><a class="link" href={`#${idOf(field)}`} safe>{message}</a>
            {help === undefined ? '' : <>{' '}<a class="link" href={at(help.href)} safe>{help.name}</a></>}
          </li>
        ))}
      </ol>
    </section>
  )
}
