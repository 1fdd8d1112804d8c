import { longText, quantity, reference } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { COUNTER, EVERYBODY } from '../shared/roles.ts'
import { checkDelivery } from './rules.ts'

export const delivery = defineKind({
  name: 'delivery', plural: 'deliveries', path: 'deliveries', model: 'delivery', place: 'builds', isOfBuild: true, isSingle: true,
  fields: {
    odometer: quantity('Odometer', 'distance', { isListed: true }),
    placardLoad: quantity('Occupants and cargo by the tire placard', 'mass', { largest: 20_000_000, note: 'As it stands on the door pillar: 480 kg or 1,058 lb.' }),
    careAndUse: longText('Care and use', { note: 'What the customer has to know: levels, cleaning, what not to load, what to check and when.' }),
    beforeSale: longText('Before a sale, a lease return or a dealer visit', { note: 'Whom to call, what to bring, what must go back first.' }),
    explainedById: reference('Explained by', 'person', { isListed: true }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: COUNTER, title: () => 'Delivery', check: checkDelivery,
  firstStep: { why: 'What the customer was told and took home.', example: '38,410 km, care and use explained, signed by whoever received it.' },
})
