// Ticks on a frozen sheet: put down at once, sent when there is a network, never lost and never doubled.
// Each mark carries an id made here; the shop takes the same id once. Without this file the forms work one by one.

const sheet = document.querySelector('[data-sheet]')
const KEPT = `putback marks ${sheet.dataset.sheet}`
const RETRY_MS = 15_000
const LOOK_MS = 30_000

// Not randomUUID: pages on a plain network have none.
function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = (bytes[6] & 0x0f) | 0x40
  bytes[8] = (bytes[8] & 0x3f) | 0x80
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}

function readKept() {
  return JSON.parse(localStorage.getItem(KEPT) ?? '[]')
}

// Read again before each change: another page of this phone may have added to it.
function change(work) {
  const kept = work(readKept())
  if (kept.length === 0) localStorage.removeItem(KEPT)
  else localStorage.setItem(KEPT, JSON.stringify(kept))
}

const WHEN = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit' })

const own = () => readKept().filter(({ person }) => person === sheet.dataset.person)
const stepOf = (key) => sheet.querySelector(`[data-step="${CSS.escape(key)}"]`)
const cards = () => [...sheet.querySelectorAll('[data-step]')]

let trouble = ''

function showUnsent() {
  const line = sheet.querySelector('[data-unsent]')
  const [mine, others] = [own().length, readKept().length - own().length]
  const words = [
    mine === 0 ? '' : `${mine} ${mine === 1 ? 'mark is' : 'marks are'} not yet sent. They are kept on this phone and sent when the network is back.`,
    others === 0 ? '' : `${others} of somebody else wait here: they are sent when that person signs in and opens this sheet.`,
    trouble,
  ].filter((text) => text !== '')
  line.hidden = words.length === 0
  line.textContent = words.join(' ')
}

function showState(card, isDone, words) {
  const state = card.querySelector('[data-state]')
  state.querySelector('.mark').className = `mark m-${isDone ? 'done hand' : 'empty'}`
  state.querySelector('span').textContent = words
  card.classList.toggle('is-done', isDone)
  const button = card.querySelector('.put')
  if (!button || button.value === 'signature') {
    if (isDone) card.querySelector('.signing')?.remove()
    return
  }
  button.value = isDone ? 'not done' : 'done'
  button.classList.toggle('first', !isDone)
  button.firstElementChild.textContent = isDone ? 'Take the tick back' : 'Done'
}

/** What this phone knows, sent or not: the shop's answer, and on top of it what still waits here. */
function showAll(answer) {
  for (const step of answer.steps) {
    const card = stepOf(step.key)
    if (!card) continue
    card.dataset.waits = step.waitsFor.join(' ')
    const needs = card.querySelector('[data-needs]')
    if (needs) needs.hidden = step.isDone || step.waitsFor.length === 0
    const isKept = own().some((mark) => mark.step === step.key && mark.kind !== 'torque' && mark.kind !== 'deviation')
    const isShown = card.classList.contains('is-done') === step.isDone && !card.dataset.unsent
    if (isKept || isShown) continue
    delete card.dataset.unsent
    showState(card, step.isDone, step.isDone ? `done: ${step.by}, ${WHEN.format(new Date(step.at))}` : step.by === '' ? 'not done' : `not done, taken back: ${step.by}`)
  }
  document.querySelector('[data-done]').textContent = `${answer.done} of ${answer.count}`
}

function showKept() {
  for (const { step, kind } of own()) {
    const card = stepOf(step)
    if (!card || !['done', 'not done', 'signature'].includes(kind)) continue
    card.dataset.unsent = kind
    showState(card, kind !== 'not done', kind === 'not done' ? 'not done; not yet sent' : 'done; not yet sent')
  }
}

let isSending = false

/** One request at a time, so that a tick and its taking back arrive in their order. */
async function send() {
  if (isSending || document.hidden) return
  isSending = true
  try {
    const waiting = own().slice(0, 100)
    const answer = await fetch(sheet.dataset.to, {
      method: 'POST', headers: { 'content-type': 'application/json', 'x-csrf-token': sheet.dataset.csrf },
      body: JSON.stringify({ marks: waiting.map(({ putAt, person, ...mark }) => ({ ...mark, age: Math.max(0, Math.round(Date.now() - putAt)) })) }),
    })
    if (answer.ok) take(await answer.json())
    else trouble = answer.status === 401 || answer.status === 403 ? 'The session has ended: sign in again, the marks are kept.' : `The shop could not take them now (${answer.status}); they are tried again.`
  } catch {
    trouble = ''
  }
  isSending = false
  showUnsent()
  showKept()
}

function take(answer) {
  const settled = new Map(answer.items.map((item) => [item.id, item]))
  const refused = [...settled.values()].filter(({ state }) => state === 'refused')
  trouble = refused.map(({ message }) => `Not taken: ${message}`).join(' ')
  change((kept) => kept.filter(({ id }) => !settled.has(id)))
  showAll(answer)
  if (own().length > 0) setTimeout(send)
}

function warn(form, words) {
  form.querySelector('.mend')?.remove()
  const line = document.createElement('p')
  line.className = 'mend'
  line.setAttribute('role', 'alert')
  line.textContent = words
  form.querySelector('.deed:last-child')?.before(line)
  form.querySelector('details')?.setAttribute('open', '')
}

/** True where the step waits for others and nobody said "all the same" yet. */
function isHeld(form, card, kind) {
  if (kind !== 'done' && kind !== 'signature') return false
  const open = card.dataset.waits.split(' ').filter((key) => key !== '' && !own().some((mark) => mark.step === key && mark.kind === 'done'))
  if (open.length === 0 || form.dataset.warned === kind) return false
  form.dataset.warned = kind
  warn(form, `Not ticked yet: ${open.length === 1 ? 'step' : 'steps'} ${open.slice(0, 6).join(', ')}${open.length > 6 ? ` and ${open.length - 6} more` : ''} should be done first. If it was done otherwise, say so in words, and press again to tick it all the same.`)
  return true
}

// A torque is read by the shop; a bare number is seen here already, while the wrench is still in the hand.
function findTorqueFault(torques) {
  const bare = torques.find(({ torque }) => !/[a-z]/i.test(torque))
  return bare ? `Write the unit of the wrench with it: ${bare.torque} N·m, ${bare.torque} lbf·ft or ${bare.torque} lbf·in.` : ''
}

function putDown(event) {
  const form = event.target.closest('form[data-mark]')
  if (!form) return
  const card = form.closest('[data-step]')
  const kind = event.submitter?.value ?? 'done'
  const entered = new FormData(form)
  const text = String(entered.get('text') ?? '').trim()
  const torques = [...entered].filter(([name, value]) => name.startsWith('torque_') && value.trim() !== '').map(([name, value]) => ({ step: `${card.dataset.step}.${name.slice(7)}`, kind: 'torque', torque: value.trim() }))
  event.preventDefault()
  event.stopImmediatePropagation()
  const fault = findTorqueFault(torques) || (kind === 'deviation' && text === '' ? 'Say in words what is otherwise than the sheet says.' : '')
    || (kind === 'signature' && String(entered.get('signedName') ?? '').trim() === '' ? 'Type the name of whoever signs.' : '')
  if (fault !== '') return warn(form, fault)
  if (isHeld(form, card, kind)) return
  const marks = [...torques, ...(kind === 'torque' ? [] : [{
    step: card.dataset.step, kind, text, ...(kind === 'signature' ? { signedName: String(entered.get('signedName')), signature: String(entered.get('signature') ?? '') } : {}),
  }])]
  try {
    change((kept) => [...kept, ...marks.map((mark) => ({ ...mark, id: newId(), putAt: Date.now(), person: sheet.dataset.person }))])
  } catch {
    return warn(form, 'This phone has no room to keep it. Nothing was put down: free some room, or note it on paper.')
  }
  settle(form, kind, text, torques)
  showKept()
  showUnsent()
  send()
}

function settle(form, kind, text, torques) {
  delete form.dataset.warned
  form.querySelector('.mend')?.remove()
  for (const entry of form.querySelectorAll('input[type=text]')) entry.value = ''
  if (kind !== 'deviation' && torques.length === 0) return
  const line = document.createElement('p')
  line.className = 'sub hand'
  line.textContent = [kind === 'deviation' ? `Otherwise: ${text}` : '', ...torques.map(({ torque }) => `Applied: ${torque}`)].filter((words) => words !== '').join('. ')
  form.closest('[data-step]').querySelector('.standing').append(line)
}

// Before the page's own handling of forms, which refuses to send without a network.
document.addEventListener('submit', putDown, true)
window.addEventListener('online', send)
document.addEventListener('visibilitychange', send)
setInterval(() => own().length > 0 && send(), RETRY_MS)
setInterval(send, LOOK_MS)
showKept()
showUnsent()
if (cards().length > 0) send()
