import type { Children } from '@kitajs/html'
import { NumberedTriangle } from './marks.tsx'
import type { FieldProblem } from './viewer.ts'

/** What is wrong with one entry, numbered as in the summary on top. */
export interface NumberedProblem { readonly number: number, readonly message: string }

/** What every entry of a form takes. */
export interface EntryProps {
  readonly name: string
  readonly label: string
  readonly note?: string | undefined
  readonly problem?: NumberedProblem | undefined
  readonly required?: boolean | undefined
  /** When it is needed, where that depends on other entries: "if new". */
  readonly requiredWhen?: string | undefined
}

/** The problem of a field with its number in the summary, if it has one. */
export function problemOf(problems: readonly FieldProblem[], field: string): NumberedProblem | undefined {
  const index = problems.findIndex((each) => each.field === field)
  const found = problems[index]
  return found === undefined ? undefined : { number: index + 1, message: found.message }
}

export const idOf = (name: string): string => `field-${name}`

/** The attributes that tie a control to its label, its note and its problem. */
export function tie({ name, note, problem, required }: EntryProps) {
  const described = [problem && `${idOf(name)}-wrong`, note !== undefined && `${idOf(name)}-note`].filter(Boolean).join(' ')
  return {
    'id': idOf(name),
    name,
    'required': required === true,
    'aria-invalid': problem === undefined ? false as const : 'true' as const,
    'aria-describedby': described === '' ? false as const : described,
  }
}

/** One line of the specification: label, entry, note. */
export function Field({ entry, children }: { entry: EntryProps, children: Children }): JSX.Element {
  return (
    <div class="field">
      <label class="name" for={idOf(entry.name)}><Name entry={entry} /></label>
      <div class="into">{children}</div>
      <Beside entry={entry} />
    </div>
  )
}

/** The same for a group of ticks or rings, which has a legend instead of a label. */
export function GroupField({ entry, children }: { entry: EntryProps, children: Children }): JSX.Element {
  const id = idOf(entry.name)
  return (
    <div class="field" role="group" aria-labelledby={`${id}-name`} aria-describedby={entry.problem === undefined ? false : `${id}-wrong`}>
      <span class="name" id={`${id}-name`}><Name entry={entry} /></span>
      <div class="into" id={id} tabindex="-1">{children}</div>
      <Beside entry={entry} />
    </div>
  )
}

function Name({ entry }: { entry: EntryProps }): JSX.Element {
  const need = entry.required === true ? 'required' : entry.requiredWhen === undefined ? '' : `required ${entry.requiredWhen}`
  return <><span safe>{entry.label}</span>{need === '' ? '' : <span class="need" safe>{` ${need}`}</span>}</>
}

function Beside({ entry: { name, note, problem } }: { entry: EntryProps }): JSX.Element {
  if (note === undefined && problem === undefined) return ''
  return (
    <div class="beside">
      {problem === undefined ? '' : <Wrong id={`${idOf(name)}-wrong`} problem={problem} />}
      {note === undefined ? '' : <p class="note" id={`${idOf(name)}-note`} safe>{note}</p>}
    </div>
  )
}

function Wrong({ id, problem }: { id: string, problem: NumberedProblem }): JSX.Element {
  return <p class="wrong" id={id}><NumberedTriangle number={problem.number} /><span safe>{problem.message}</span></p>
}
