// Pictures chosen on a page go out one by one beside it, again and again until each has arrived once.
import { drawQueue, openOutbox, photoItems, shownPhoto } from './outbox.js'

const forms = [...document.querySelectorAll('form[data-outbox]')]
let outbox

function show(items, words) {
  for (const form of forms) {
    const own = items.filter(({ fields }) => fields?.subjectId === form.elements.subjectId.value)
    drawQueue(form.querySelector('[data-queue]'), own, () => outbox)
    const kept = outbox?.isKept === false ? ' They wait while this page is open.' : ''
    form.querySelector('[data-progress]').textContent = own.length === 0 ? '' : `${own.length} not sent yet. ${words}${kept}`
  }
}

function arrive({ fields }, { items: [photo] }) {
  const form = forms.find((each) => each.elements.subjectId.value === fields?.subjectId)
  if (!form || !photo || document.querySelector(`[href$="/photos/${photo.id}"]`)) return
  const section = form.closest('.photos')
  section.querySelector('.photo-list').append(shownPhoto(photo, form.action))
  section.querySelector('h2 + .quiet')?.remove()
}

async function send(event) {
  const form = event.currentTarget
  event.preventDefault()
  event.stopPropagation()
  const inputs = [...form.querySelectorAll('input[type=file]')]
  const files = inputs.flatMap((input) => [...input.files])
  if (files.length === 0) {
    form.querySelector('[data-progress]').textContent = 'Choose at least one picture.'
    return
  }
  const { subjectKind, subjectId, caption, moment } = form.elements
  const fields = { subjectKind: subjectKind.value, subjectId: subjectId.value, caption: caption.value, moment: moment.value }
  const adding = outbox.add(photoItems(files, form.dataset.api, fields, form.dataset.of))
  for (const input of inputs) input.value = ''
  await adding
}

const [first] = forms
outbox = await openOutbox({ personId: first.dataset.outbox, token: first.elements._csrf.value, photosUrl: first.dataset.api, changed: show, arrived: arrive })
for (const form of forms) {
  form.querySelector('[data-at-once]').hidden = true
  form.addEventListener('submit', send)
}
