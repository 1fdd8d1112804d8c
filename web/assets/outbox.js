// What is put down on a poor network waits here, in the browser's own store, and goes out in order as soon as it can.
// Each piece has a name of its own, so that sending it again adds nothing.
import { smaller } from './shrink.js'

const FIRST_PAUSE_MS = 1000
const LONGEST_PAUSE_MS = 30_000
const LONGEST_SENDING_MS = 60_000
const MOST_ASKED = 100

/** A new name; crypto.randomUUID is missing where the shop's network has no TLS. */
export function newName() {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = bytes[6] & 0x0f | 0x40
  bytes[8] = bytes[8] & 0x3f | 0x80
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('').replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-')
}

const done = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result)
  request.onerror = () => reject(request.error)
})

async function browserStore() {
  const opening = indexedDB.open('putback', 1)
  opening.onupgradeneeded = () => opening.result.createObjectStore('outbox', { keyPath: 'place', autoIncrement: true })
  const database = await done(opening)
  const act = (mode, work) => done(work(database.transaction('outbox', mode).objectStore('outbox')))
  return {
    isKept: true,
    add: (item) => act('readwrite', (store) => store.add(item)),
    put: (item) => act('readwrite', (store) => store.put(item)),
    drop: ({ place }) => act('readwrite', (store) => store.delete(place)),
    list: () => act('readonly', (store) => store.getAll()),
  }
}

function pageStore() {
  const items = new Map()
  let place = 0
  return {
    isKept: false,
    add: async (item) => void items.set(place += 1, { ...item, place }),
    put: async (item) => void items.set(item.place, item),
    drop: async (item) => void items.delete(item.place),
    list: async () => [...items.values()],
  }
}

/** What the server or the network says is wrong; `isLasting` where trying again would not help. */
class Refused extends Error {
  constructor(words, { isLasting = false, signIn = false } = {}) {
    super(words)
    Object.assign(this, { isLasting, signIn })
  }
}

async function fetchSoon(url, init) {
  const stop = new AbortController()
  const timer = setTimeout(() => stop.abort(), LONGEST_SENDING_MS)
  try {
    return await fetch(url, { ...init, signal: stop.signal })
  } catch {
    throw new Refused('no network')
  } finally {
    clearTimeout(timer)
  }
}

async function answerOf(answer) {
  if (answer.ok) return answer.json()
  const { detail } = await answer.json().catch(() => ({}))
  if (answer.status === 401 || answer.status === 403) throw new Refused(detail ?? 'Sign in again.', { signIn: true })
  const isPassing = answer.status >= 500 || [408, 425, 429].includes(answer.status)
  throw new Refused(detail ?? 'The server did not take it.', { isLasting: !isPassing })
}

// The picture waits as it was taken, and is made smaller when it goes.
async function bodyOf({ fields, file, fileName }) {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.append(name, value)
  form.append('files', await smaller(file), fileName)
  return form
}

/**
 * The outbox of one person. Items: { name, url, label, fields, file, fileName } for a picture,
 * { name, url, label, json } for a record. `changed(items, words)` is told of every change, `arrived(item, answer)` of every arrival.
 */
export async function openOutbox({ personId, token, photosUrl, changed, arrived }) {
  const store = await browserStore().catch(pageStore)
  let pause = FIRST_PAUSE_MS
  let timer
  let isSending = false
  let asksFirst = true
  let words = ''

  // Another person on the same phone does not send what this one put down.
  const list = async () => (await store.list()).filter((item) => item.personId === personId)
  const tell = async (said = words) => {
    words = said
    changed(await list(), words)
  }

  async function settle(item, answer) {
    await store.drop(item)
    arrived(item, answer)
  }

  /** After a failure some pictures may have arrived whose sender never heard of it. */
  async function askWhatArrived() {
    const items = (await list()).filter(({ file, refused }) => file && !refused).slice(0, MOST_ASKED)
    if (items.length === 0) return
    const answer = await answerOf(await fetchSoon(`${photosUrl}/arrived?sentAs=${items.map(({ name }) => name).join(',')}`))
    for (const photo of answer.items) await settle(items.find(({ name }) => name === photo.sentAs), { items: [photo] })
  }

  async function sendOne(item) {
    const own = item.file
      ? { body: await bodyOf(item) }
      : { body: JSON.stringify(item.json), headers: { 'content-type': 'application/json', 'idempotency-key': item.name } }
    const answer = await fetchSoon(item.url, { method: 'POST', ...own, headers: { ...own.headers, 'x-csrf-token': token, accept: 'application/json' } })
    try {
      await settle(item, await answerOf(answer))
    } catch (error) {
      if (!error.isLasting) throw error
      await store.put({ ...item, refused: error.message })
    }
  }

  async function run() {
    clearTimeout(timer)
    if (isSending) return
    isSending = true
    try {
      if (asksFirst) await askWhatArrived()
      asksFirst = false
      for (;;) {
        const item = (await list()).find(({ refused }) => !refused)
        if (!item) break
        await tell('Sending.')
        await sendOne(item)
        pause = FIRST_PAUSE_MS
      }
      isSending = false
      await tell('')
      // Something may have been put down just as this ended.
      if ((await list()).some(({ refused }) => !refused)) await run()
    } catch (error) {
      isSending = false
      asksFirst = true
      if (!(error instanceof Refused)) throw error
      if (error.signIn) return tell(`${error.message} Nothing is lost: open this page again, and it goes on.`)
      timer = setTimeout(run, pause)
      await tell(`Not sent: ${error.message}. The next try comes by itself.`)
      pause = Math.min(pause * 2, LONGEST_PAUSE_MS)
    }
  }

  window.addEventListener('online', run)
  await tell()
  void run()
  return {
    isKept: store.isKept,
    list,
    run,
    async add(items) {
      for (const item of items) await store.add({ ...item, personId, page: location.pathname, at: Date.now() })
      await tell()
      await run()
    },
    async drop(item) {
      await store.drop(item)
      await tell()
    },
  }
}

const clock = (at) => new Date(at).toTimeString().slice(0, 5)
const sizeOf = (bytes) => bytes < 100_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`

const MOST_DRAWN = 8

/** The waiting pieces as a list, each refused one with why and a button that lets it go. */
export function drawQueue(list, items, outbox) {
  const drawn = items.toSorted((a, b) => Number(b.refused !== undefined) - Number(a.refused !== undefined)).slice(0, MOST_DRAWN)
  const more = document.createElement('li')
  more.textContent = `and ${items.length - drawn.length} more`
  list.replaceChildren(...drawn.map((item) => drawItem(item, outbox)), ...(items.length > drawn.length ? [more] : []))
}

function drawItem(item, outbox) {
  const line = document.createElement('li')
  const mark = document.createElement('i')
  mark.className = `mark ${item.refused ? 'm-point' : 'm-waiting'}`
  const says = document.createElement('span')
  says.textContent = `${clock(item.at)} ${item.label}${item.refused ? `: ${item.refused}` : ''}`
  line.append(mark, says)
  if (item.file) {
    const size = document.createElement('span')
    size.className = 'quiet'
    size.textContent = sizeOf(item.file.size)
    line.append(size)
  }
  if (item.refused) {
    const button = document.createElement('button')
    Object.assign(button, { type: 'button', className: 'button', textContent: 'Let it go' })
    button.addEventListener('click', () => outbox().drop(item))
    line.append(button)
  }
  return line
}

/** A picture that has come, as pages show it. */
export function shownPhoto({ id, width, height, caption, moment }, photosPage) {
  const scale = Math.min(1, 480 / Math.max(width, height, 1))
  const picture = Object.assign(new Image(Math.round(width * scale), Math.round(height * scale)), { src: `${photosPage}/${id}?size=small`, alt: caption || 'Photo just sent' })
  const link = Object.assign(document.createElement('a'), { href: `${photosPage}/${id}` })
  link.append(picture)
  const words = document.createElement('figcaption')
  words.textContent = [caption, moment, 'just now'].filter(Boolean).join(', ')
  const figure = Object.assign(document.createElement('figure'), { className: 'photo' })
  figure.append(link, words)
  const line = document.createElement('li')
  line.dataset.photo = id
  line.append(figure)
  return line
}

/** Pieces for the outbox from chosen files, one a picture. */
export const photoItems = (files, url, fields, of) => [...files].map((file) => {
  const name = newName()
  return { name, url, file, fileName: file.name, fields: { ...fields, sentAs: name }, label: `photo of ${of}, ${file.name}` }
})
