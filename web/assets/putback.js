// Everything works without this file; it adds the running clock, pencil while typing, one answer
// per press, typed text that survives a broken connection, and figures that open where they stand.

const TYPED = 'putback typed'

function showClock(clock) {
  const begunAgo = Date.parse(clock.dataset.now) - Date.parse(clock.dataset.started)
  // Counted from the server's own two times, so a phone whose clock is wrong still shows the right length.
  const drawnAt = Date.now()
  const draw = () => {
    const seconds = Math.max(0, Math.floor((begunAgo + Date.now() - drawnAt) / 1000))
    const two = (number) => String(number).padStart(2, '0')
    const small = document.createElement('small')
    small.textContent = `:${two(seconds % 60)}`
    clock.replaceChildren(`${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}`, small)
  }
  draw()
  setInterval(draw, 1000)
}

function say(form, words) {
  const line = document.createElement('p')
  line.className = 'mend'
  line.setAttribute('role', 'alert')
  line.textContent = words
  form.prepend(line)
}

function valuesOf(form) {
  const kept = [...new FormData(form)].filter(([name, value]) => !name.startsWith('_') && typeof value === 'string')
  const secret = new Set([...form.querySelectorAll('input[type=password]')].map((input) => input.name))
  return kept.filter(([name]) => !secret.has(name))
}

function remember(form) {
  try {
    const typed = { page: location.href, action: form.getAttribute('action'), values: valuesOf(form) }
    sessionStorage.setItem(TYPED, JSON.stringify(typed))
  } catch {
    // Storage may be full or switched off; the form is sent all the same.
  }
}

function fill(form, values) {
  for (const control of form.elements) {
    if (!control.name || control.type === 'hidden' || control.type === 'password' || control.type === 'submit') continue
    const given = values.filter(([name]) => name === control.name).map(([, value]) => value)
    if (control.type === 'checkbox' || control.type === 'radio') control.checked = given.includes(control.value)
    else if (given.length > 0) control.value = given[0]
    control.classList.add('typed')
  }
}

function restore() {
  const text = sessionStorage.getItem(TYPED)
  if (text === null || document.querySelector('[data-problem]')) return
  const typed = JSON.parse(text)
  // An answer came when another page is shown, when it led here by redirect, or when it says what was made or is to mend.
  const wasLedHere = performance.getEntriesByType('navigation')[0]?.redirectCount > 0
  const isAnswered = typed.page !== location.href || wasLedHere || document.querySelector('.mend, [data-answered]')
  sessionStorage.removeItem(TYPED)
  const form = document.querySelector(`form[data-keep][action="${CSS.escape(typed.action)}"]`)
  if (isAnswered || form === null) return
  fill(form, typed.values)
  say(form, 'What you typed is here again. It is not saved yet.')
}

function send(event) {
  const form = event.target
  const keeps = form.dataset.keep !== undefined
  if (form.dataset.sent !== undefined) return event.preventDefault()
  if (!navigator.onLine && form.method === 'post') {
    event.preventDefault()
    return say(form, 'No network. Nothing is sent, and what you typed stays here: try again when it is back.')
  }
  form.dataset.sent = ''
  event.submitter?.setAttribute('aria-disabled', 'true')
  if (keeps) remember(form)
}

function allowAgain() {
  for (const form of document.querySelectorAll('form[data-sent]')) delete form.dataset.sent
  for (const button of document.querySelectorAll('[aria-disabled]')) button.removeAttribute('aria-disabled')
}

/* ---- a figure in a row opens how it comes about; without this its link leads to the page that says so ---- */
const opened = new Map()

/** The answer is a whole page: a session that has ended, or a failure, is better seen than swallowed. */
async function open(link) {
  link.setAttribute('aria-busy', 'true')
  try {
    const answer = await fetch(link.href)
    const page = new DOMParser().parseFromString(await answer.text(), 'text/html')
    const sheet = answer.ok && page.querySelector('main .sum')
    if (!sheet) throw new Error(`no working at ${link.href}`)
    opened.set(link, putBeside(link, sheet))
    link.setAttribute('aria-expanded', 'true')
  } catch {
    location.assign(link.href)
  }
  link.removeAttribute('aria-busy')
}

function putBeside(link, sheet) {
  const row = link.closest('tr')
  const box = document.createElement(row ? 'tr' : 'div')
  box.className = 'opened'
  if (row) {
    const cell = box.insertCell()
    cell.colSpan = [...row.cells].reduce((sum, each) => sum + each.colSpan, 0)
    cell.className = 'whole'
    cell.append(sheet)
    row.after(box)
    return box
  }
  box.append(sheet)
  const holder = link.closest('li, dd, .value')
  if (holder) holder.append(box)
  else (link.closest('p') ?? link).after(box)
  return box
}

function close(link) {
  opened.get(link).remove()
  opened.delete(link)
  link.setAttribute('aria-expanded', 'false')
  link.focus()
}

for (const link of document.querySelectorAll('a[href*="?how="]')) link.setAttribute('aria-expanded', 'false')
document.addEventListener('click', (event) => {
  const link = event.target.closest?.('a[href*="?how="]')
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return
  event.preventDefault()
  if (opened.has(link)) close(link)
  else if (!link.hasAttribute('aria-busy')) open(link)
})
document.addEventListener('keydown', (event) => {
  if (event.key !== 'Escape') return
  for (const [link, box] of opened) if (link === event.target || box.contains(event.target)) close(link)
})

document.querySelectorAll('[data-started]').forEach(showClock)
document.addEventListener('submit', send)
document.addEventListener('input', ({ target }) => {
  if (target.closest('form[data-keep]')) target.classList.add('typed')
})
window.addEventListener('pageshow', allowAgain)
for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false
  button.addEventListener('click', () => window.print())
}
restore()
