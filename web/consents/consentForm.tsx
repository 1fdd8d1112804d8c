import { CheckEntry, Fields, Form, LongEntry, problemOf, TextEntry } from '../shared/form.tsx'
import { PaperOptions } from '../shared/paperTables.tsx'
import type { ConsentFormData, FrozenPaperData } from './paperData.ts'

/** Options to say yes or no to, and the consent: nothing is agreed until it is pressed. */
export function ConsentForms({ data, consent }: { data: FrozenPaperData, consent: ConsentFormData }): JSX.Element {
  const { typed, problems, isInShop } = consent
  const who = isInShop ? 'the customer' : 'you'
  const entry = (name: string, label: string, note: string) => ({ name, label, note, problem: problemOf(problems, name) })
  return (
    <section class="block" aria-labelledby="consent">
      <h2 id="consent">{isInShop ? 'Take down the consent' : 'Your consent'}</h2>
      <p safe>{`No work is done beyond what is agreed without asking ${who} again. Nothing is agreed until the button is pressed.`}</p>
      <Form action={consent.action} csrfToken={consent.csrfToken} idempotencyKey={consent.key} problems={problems} alone
        submit={isInShop ? `Accepted: ${data.number}, ${consent.total}` : `I agree to ${data.number}, ${consent.total}`}
        also={data.view.options.length === 0 ? undefined : { action: consent.totalsAction, name: 'Work out the total with these' }}
        note={data.view.options.length === 0 ? undefined : 'With other options the total is another one: it is shown before it counts.'}>
        <input type="hidden" name="decision" value="accepted" />
        <input type="hidden" name="hash" value={consent.hash} />
        <input type="hidden" name="seen" value={String(consent.seen)} />
        {data.view.options.length === 0 ? '' : (
          <fieldset class="fields" id="field-option"><legend>{isInShop ? 'Options the customer wants' : 'Options: tick what you want'}</legend><PaperOptions view={data.view} isAsked isFrozen /></fieldset>
        )}
        <Fields>
          <CheckEntry {...entry('hasRead', 'Read', '')} value={typed.hasRead} says={isInShop ? 'The customer has read this paper' : 'I have read this paper'} required />
          <TextEntry {...entry('typedName', 'Full name', isInShop ? 'Of the customer. It counts as the signature, and stays.' : 'It counts as your signature. Name, time and this revision are kept together, for good.')} value={typed.typedName} autocomplete="name" required />
          {isInShop ? <TextEntry {...entry('note', 'How', 'Signed on paper, said on the phone: what kind of consent is needed is for local law to say.')} value={typed.note} /> : ''}
        </Fields>
      </Form>
      <details class="decline" open={typed.declineName !== '' || typed.declineNote !== '' || problems.some(({ field }) => field.startsWith('decline'))}>
        <summary>{isInShop ? 'The customer says no' : 'Say no, or ask for a change'}</summary>
        <Form action={consent.action} csrfToken={consent.csrfToken} idempotencyKey={consent.declineKey} alone submit={`Decline ${data.number}`}>
          <input type="hidden" name="decision" value="declined" />
          <input type="hidden" name="hash" value={consent.hash} />
          <Fields>
            <TextEntry {...entry('declineName', 'Full name', '')} value={typed.declineName} required />
            <LongEntry {...entry('declineNote', 'Why, or what should change', 'The shop can draw up a new revision.')} value={typed.declineNote} />
          </Fields>
        </Form>
      </details>
    </section>
  )
}
