import t from 'tap'
import { findPrivate } from '../../server/calc/privacy.ts'

t.test('a private value is found in whatever case and with whatever gaps, and only as whole words', async (t) => {
  const values = ['1M8GDM9AXKP042788', 'DEMO 058', '555-0142', 'Quill & Sons', '41 Tannery Row\nSallow Creek']
  t.equal(findPrivate('plate demo-058, seen', values), 'DEMO 058')
  t.equal(findPrivate('call 555 0142 now', values), '555-0142')
  t.equal(findPrivate('for quill & sons’ van', values), 'Quill & Sons')
  t.equal(findPrivate('VIN 1m8gdm9axkp042788.', values), '1M8GDM9AXKP042788')
  t.equal(findPrivate('41 Tannery Row, Sallow Creek', values), '41 Tannery Row\nSallow Creek')
  t.equal(findPrivate('Quillwork and sons of oak', values), null)
  t.equal(findPrivate('anything', ['', 'a', 'of']), null, 'what is too short stands in every other word')
})
