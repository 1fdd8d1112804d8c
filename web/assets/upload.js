// A form with pictures is sent beside the page, so that what was chosen stays for another try.

function sayProgress(form, words) {
  const line = form.querySelector('[data-progress]')
  if (line) line.textContent = words
}

/** What the answer's page says is wrong. */
function refusalIn(html) {
  const page = new DOMParser().parseFromString(html, 'text/html')
  const told = page.querySelector('.mend ol, [data-problem] .lead')
  return told ? told.textContent.trim() : 'The server did not take it.'
}

function fail(form, words) {
  delete form.dataset.sent
  form.querySelector('button[type=submit]').removeAttribute('aria-disabled')
  sayProgress(form, `${words} What you chose is still here: try again.`)
  form.querySelector('[data-progress]')?.classList.add('refused')
}

async function sendAlong(event) {
  const form = event.currentTarget
  event.preventDefault()
  if (form.dataset.sent !== undefined) return
  form.dataset.sent = ''
  form.querySelector('[data-progress]')?.classList.remove('refused')
  form.querySelector('button[type=submit]').setAttribute('aria-disabled', 'true')
  const request = new XMLHttpRequest()
  request.open('POST', form.action)
  request.upload.addEventListener('progress', ({ loaded, total }) => {
    sayProgress(form, loaded < total ? `Sending, ${Math.round(100 * loaded / total)} of 100` : 'Sent. The pictures are being read.')
  })
  request.addEventListener('error', () => fail(form, 'The connection broke off.'))
  request.addEventListener('load', () => {
    if (request.status >= 400) return fail(form, refusalIn(request.responseText))
    if (new URL(request.responseURL).href.split('#')[0] === location.href.split('#')[0]) location.reload()
    else location.assign(request.responseURL)
  })
  const fields = new FormData(form)
  sayProgress(form, 'Making the pictures ready.')
  const { smallerIn } = await import('./shrink.js')
  request.send(await smallerIn(fields))
}

for (const form of document.querySelectorAll('form[data-upload]')) form.addEventListener('submit', sendAlong)
