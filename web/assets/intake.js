// Tapping the outline and drawing a signature. Both can be done without: from a list, and by a typed name.

function pointIn(svg, event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse())
  const box = svg.viewBox.baseVal
  const within = (value, least, length) => Math.round(Math.min(Math.max(value, least), least + length))
  return { x: within(point.x, box.x, box.width), y: within(point.y, box.y, box.height) }
}

for (const plan of document.querySelectorAll('[data-taps-into]')) {
  const form = document.getElementById(plan.dataset.tapsInto)
  const svg = plan.querySelector('svg')
  form.querySelector('[data-taps-note]').hidden = false
  plan.classList.add('taps')
  svg.addEventListener('click', (event) => {
    const { x, y } = pointIn(svg, event)
    form.elements.x.value = Math.round(x * 1000 / Number(svg.dataset.width))
    form.elements.y.value = Math.round(y * 1000 / Number(svg.dataset.height))
    form.requestSubmit()
  })
}

for (const field of document.querySelectorAll('[data-sign]')) {
  const [svg, path, kept] = [field.querySelector('svg'), field.querySelector('path'), field.querySelector('input')]
  const write = (drawn) => {
    kept.value = drawn
    path.setAttribute('d', drawn)
  }
  field.hidden = false
  svg.addEventListener('pointerdown', (event) => {
    svg.setPointerCapture(event.pointerId)
    const { x, y } = pointIn(svg, event)
    write(`${kept.value}M${x} ${y}L${x} ${y}`)
  })
  svg.addEventListener('pointermove', (event) => {
    if (event.buttons === 0 || !svg.hasPointerCapture(event.pointerId) || kept.value.length > 15000) return
    const { x, y } = pointIn(svg, event)
    write(`${kept.value}L${x} ${y}`)
  })
  field.querySelector('[data-sign-again]').addEventListener('click', () => write(''))
}
