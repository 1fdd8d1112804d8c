// The two taps of a teardown on a poor network: photo and answer wait in the outbox, and the page goes on to the next part.
import { drawQueue, newName, openOutbox, photoItems, shownPhoto } from './outbox.js'

// A second tap that was meant for the part before must not answer for the next.
const DOUBLE_TAP_MS = 800
const REDRAWN = ['front', 'bin-tap', 'last', 'more', 'rest', 'order']

const box = document.querySelector('[data-queue-box]')
const form = document.getElementById('answer')
const find = (name) => document.querySelector(`[data-${name}]`)
const rowOf = (id) => document.querySelector(`#order tr[data-id="${id}"]`)
const currentId = () => form?.elements.factoryPartId.value
const nameOf = (row) => row.querySelector('.pick').textContent
const isAnswerHere = (item) => item.json !== undefined && item.page === location.pathname
let outbox
let movedAt = -Infinity

/* ---- what waits ---- */
function changed(items, words) {
  box.hidden = items.length === 0
  drawQueue(box.querySelector('[data-queue]'), items, () => outbox)
  const kept = outbox?.isKept === false ? 'They wait only while this page is open.' : 'They are kept here, also if the page is closed, and go out when the network is back.'
  find('kept').textContent = [words, kept].filter(Boolean).join(' ')
  find('network').textContent = items.length === 0 ? '' : `${items.length} not sent yet`
  for (const row of document.querySelectorAll('#order tr[data-local]')) unmark(row)
  for (const item of items.filter(isAnswerHere)) mark(item)
}

function mark({ json, label, refused }) {
  const row = rowOf(json.factoryPartId)
  if (!row || refused || row.dataset.local !== undefined) return
  const words = row.cells[1].lastElementChild
  Object.assign(row.dataset, { local: words.textContent, ...(row.dataset.settled === undefined ? { opened: '' } : {}), settled: '' })
  words.textContent = `${label.replace(/^\S+ /, '')}, not sent yet`
}

function unmark(row) {
  row.cells[1].lastElementChild.textContent = row.dataset.local
  if (row.dataset.opened !== undefined) delete row.dataset.settled
  delete row.dataset.local
  delete row.dataset.opened
}

/** What has arrived stays settled, also before the server has drawn it. */
function settle({ json, label }) {
  const row = rowOf(json.factoryPartId)
  if (!row) return
  row.cells[1].lastElementChild.textContent = label.replace(/^\S+ /, '')
  row.dataset.settled = ''
  delete row.dataset.local
  delete row.dataset.opened
}

async function arrived(item, answer) {
  if (isAnswerHere(item)) settle(item)
  const [photo] = answer.items ?? []
  if (photo && item.fields.subjectId === currentId()) {
    const line = shownPhoto(photo, box.dataset.pictures)
    const preview = document.querySelector(`[data-name="${item.name}"]`)
    if (preview) preview.replaceWith(line)
    else document.getElementById('photos').append(line)
  }
  const waiting = await outbox.list()
  if (!waiting.some(({ refused }) => !refused)) await redraw()
}

/** The parts of the page that no hand is on are drawn anew by the server; camera and answers stay as they are. */
async function redraw() {
  if (document.querySelector('main .typed')) return
  const id = currentId()
  const address = id && !form.hidden ? `${location.pathname}?part=${id}` : location.pathname
  const answer = await fetch(address).catch(() => null)
  if (!answer?.ok) return
  const page = new DOMParser().parseFromString(await answer.text(), 'text/html')
  if (form?.hidden) return location.assign(location.pathname)
  if (currentId() !== id || (await outbox.list()).some(isAnswerHere)) return
  for (const name of REDRAWN) {
    const [old, fresh] = [document.getElementById(name), page.getElementById(name)]
    if (old && fresh && !old.contains(document.activeElement)) old.replaceWith(fresh)
  }
  find('place').textContent = page.querySelector('[data-place]')?.textContent ?? ''
  find('standing').textContent = page.querySelector('[data-standing]')?.textContent ?? ''
  point(id)
}

/* ---- the part at hand ---- */
const point = (id) => {
  for (const row of document.querySelectorAll('#order tr[data-at]')) delete row.dataset.at
  if (rowOf(id)) rowOf(id).dataset.at = ''
}

function show(row) {
  const [number, ...name] = nameOf(row).split(' ')
  form.elements.factoryPartId.value = row.dataset.id
  find('number').textContent = number
  find('name').textContent = name.join(' ')
  find('how').textContent = row.dataset.how ?? ''
  find('standing').textContent = row.cells[1].textContent.trim()
  find('place').textContent = 'Next to come out'
  const triggers = (row.dataset.triggers ?? '').split(',')
  for (const caution of document.querySelectorAll('[data-trigger]')) caution.hidden = !triggers.includes(caution.dataset.trigger)
  document.getElementById('front').hidden = true
  document.getElementById('more').hidden = document.getElementById('more').dataset.of !== row.dataset.id
  document.getElementById('photos').replaceChildren()
  find('taken').textContent = ''
  point(row.dataset.id)
  document.querySelector('main h1').scrollIntoView({ block: 'center' })
}

function goOn() {
  movedAt = performance.now()
  const next = document.querySelector('#order tr[data-id]:not([data-settled])')
  if (next) return show(next)
  form.hidden = true
  document.getElementById('front').hidden = true
  document.getElementById('more').hidden = true
  document.querySelector('main h1').textContent = 'All of it is put down'
  find('how').textContent = ''
  find('standing').textContent = ''
}

/* ---- tap one: the camera ---- */
async function preview(file, name) {
  const line = document.createElement('li')
  line.dataset.name = name
  document.getElementById('photos').append(line)
  const picture = await createImageBitmap(file).catch(() => null)
  if (!picture) return
  const canvas = Object.assign(document.createElement('canvas'), { width: 160, height: Math.round(160 * picture.height / picture.width) })
  canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height)
  line.append(canvas)
}

async function take({ target }) {
  if (target.type !== 'file' || target.files.length === 0) return
  const items = photoItems(target.files, box.dataset.photos, { subjectKind: 'factory part', subjectId: currentId(), caption: '', moment: 'during' }, find('number').textContent)
  find('taken').textContent = `${items.length === 1 ? 'Taken' : `${items.length} chosen`} ${new Date().toTimeString().slice(0, 5)}. Now the bin.`
  target.value = ''
  for (const { file, name } of items) void preview(file, name)
  await outbox.add(items)
}

/* ---- tap two: the bin, or what else is true ---- */
function answerOf({ name, value }) {
  const { newBin, newPlace, marredBin, marredHow, factoryPartId } = form.elements
  const isMarred = name === 'kind' && ['broke', 'altered'].includes(value)
  const typed = value === 'new' ? newBin.value.trim() : name === 'into' ? value : isMarred ? marredBin.value : ''
  return {
    factoryPartId: factoryPartId.value, kind: name === 'into' ? 'came out' : value, bin: typed === '' ? null : Number(typed),
    binPlace: value === 'new' ? newPlace.value.trim() : '', condition: isMarred ? marredHow.value.trim() : '',
  }
}

/** The bin used last stands first for the next part, also one that has just got its number. */
function useBin(number) {
  const [bins] = document.querySelectorAll('#bin-tap .bins')
  const there = document.querySelector(`#bin-tap button[name=into][value="${number}"]`)
  const button = there ?? Object.assign(document.createElement('button'), { type: 'submit', name: 'into', value: number, textContent: `Into A-${String(number).padStart(3, '0')}` })
  for (const other of bins.querySelectorAll('.first')) other.classList.remove('first')
  button.className = 'button first'
  bins.prepend(button)
  if (there) return
  form.elements.newBin.value = number + 1
  form.elements.newBin.closest('details').open = false
}

async function say(event) {
  event.preventDefault()
  event.stopPropagation()
  if (!event.submitter || performance.now() - movedAt < DOUBLE_TAP_MS) return
  const { newBin } = form.elements
  const isNew = event.submitter.value === 'new'
  newBin.setCustomValidity(isNew && !/^\s*[1-9]\d{0,3}\s*$/.test(newBin.value) ? 'A bin has a number from 1 to 9999.' : '')
  if (!newBin.reportValidity()) return
  const json = answerOf(event.submitter)
  const into = json.bin === null ? '' : ` into A-${String(json.bin).padStart(3, '0')}`
  const item = { name: newName(), url: box.dataset.api, json, label: `${find('number').textContent} ${json.kind}${into}` }
  sayLast(item)
  const adding = outbox.add([item])
  const row = rowOf(json.factoryPartId)
  if (row) mark(item)
  for (const field of form.querySelectorAll('.typed')) field.classList.remove('typed')
  for (const name of ['newPlace', 'marredHow', 'marredBin']) form.elements[name].value = ''
  if (json.bin !== null) useBin(json.bin)
  goOn()
  const at = movedAt
  await adding
  if (json.kind === 'altered') await askHow(item, at)
}

/** What was done to an altered part is asked next, unless the hand is at another part already or the network is away. */
async function askHow({ name, json }, at) {
  if ((await outbox.list()).some((each) => each.name === name)) return
  const answer = await fetch(location.pathname).catch(() => null)
  if (!answer?.ok) return
  const page = new DOMParser().parseFromString(await answer.text(), 'text/html')
  const asked = page.querySelector(`a[href*="/alterations/new"][href*="${json.factoryPartId}"]`)
  const isElsewhere = movedAt !== at || find('taken').textContent !== ''
  if (asked && !isElsewhere) location.assign(asked.getAttribute('href'))
}

function sayLast({ name, label }) {
  const words = document.createElement('span')
  words.textContent = `${label}, not sent yet`
  const button = Object.assign(document.createElement('button'), { type: 'button', className: 'button', textContent: 'Undo' })
  button.addEventListener('click', () => undo(name))
  document.getElementById('last').replaceChildren(words, button)
}

async function undo(name) {
  const item = (await outbox.list()).find((each) => each.name === name)
  if (item) {
    await outbox.drop(item)
    document.getElementById('last').replaceChildren()
    form.hidden = false
    return show(rowOf(item.json.factoryPartId))
  }
  // It has arrived in the meantime: the page that knows it has its own Undo.
  location.assign(location.pathname)
}

/* ---- begin ---- */
outbox = await openOutbox({ personId: box.dataset.person, token: box.dataset.token, photosUrl: box.dataset.photos, changed, arrived })
box.querySelector('[data-try-now]').addEventListener('click', () => outbox.run())
if (form) {
  for (const label of form.querySelectorAll('.camera')) label.classList.add('armed')
  form.addEventListener('change', take)
  form.addEventListener('submit', say)
  point(currentId())
  const waiting = (await outbox.list()).filter((item) => isAnswerHere(item) && !item.refused)
  for (const { json } of waiting) if (json.bin !== null) useBin(json.bin)
  if (waiting.some(({ json }) => json.factoryPartId === currentId())) goOn()
  movedAt = -Infinity
}
document.addEventListener('click', (event) => {
  const link = event.target.closest?.('.pick')
  if (!link || navigator.onLine || !form) return
  event.preventDefault()
  show(link.closest('tr'))
})
