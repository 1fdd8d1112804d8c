import type { SearchData } from '../../../web/search/search.tsx'

const build = { id: 'b147', name: 'B-0147 Rear wall and bed box' }

export const search: SearchData = {
  find: 'door 900', note: '', allHref: null,
  groups: [
    {
      title: 'Equipment', count: '23', first: 1, backHref: null, moreHref: '/search?find=door+900&kind=equipment-lines&page=2',
      rows: Array.from({ length: 20 }, (_, index) => ({
        href: `/equipment-lines/e${index}`, number: `E-${String(index + 1).padStart(2, '0')}`, name: 'Midbass 165 mm, door', build,
        foundIn: [{ field: 'Serial numbers', text: `AV-900-${index}, AV-900-${index + 50}` }],
      })),
    },
    {
      title: 'Equipment catalog', count: '1', first: 1, backHref: null, moreHref: null,
      rows: [{ href: '/catalog/k7', number: 'K-007', name: 'Averne Door 900 <strong>', build: null, foundIn: [] }],
    },
  ],
}

export const nothingFound: SearchData = { find: '<b>"door"', note: 'Nothing fits. Every word has to stand in the same record; try fewer, or a part of one.', groups: [], allHref: null }
