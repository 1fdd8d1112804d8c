import type { Cell, Piece } from './library.ts'
import type { TitleBlockFields } from '../../../web/shared/printSheet.tsx'
import { FRAMED, label } from './pieces.ts'

/** The fields of ISO 7200 at the head of the first sheet. */
export function titleBlockOf(fields: TitleBlockFields, pageCount: number): Piece {
  const body: Cell[][] = [
    [cell('Legal owner', [fields.owner, fields.ownerMore], 2), {}, titleCell(fields, 4), {}, {}, {}],
    [cell('Document type', [fields.documentType], 2), {}, numberCell('Identification number', fields.number, 2), {}, numberCell('Revision', fields.revision), numberCell('Sheet', `1 of ${pageCount}`)],
    [cell('Created by', [fields.createdBy], 2), {}, cell('Approved by', [fields.approvedBy], 2), {}, numberCell('Date of issue', fields.dateOfIssue), cell('Language', [fields.language])],
    [numberCell('Build', fields.build, 2), {}, cell('Replaces', [fields.replaces], 4), {}, {}, {}],
    ...(fields.status === undefined ? [] : [[cell('Document status', [fields.status], 6), {}, {}, {}, {}, {}]]),
  ]
  return { table: { widths: ['*', '*', '*', '*', '*', '*'], body, dontBreakRows: true }, layout: FRAMED, margin: [0, 0, 0, 8] }
}

/** Marks the words of a foot, which belong to no page's content. */
export const IN_FOOT = 'foot'

/** Owner, number, revision, date and the sheet's place among its pages, at the foot of each. */
export function footOf(fields: TitleBlockFields, page: number, count: number): Piece {
  const { owner, number, revision, dateOfIssue } = fields
  return {
    margin: [20 * 72 / 25.4, 8, 10 * 72 / 25.4, 0], fontSize: 8.5,
    columns: [
      { text: `${owner} · ${number}, revision ${revision}, ${dateOfIssue}`, width: '*', style: IN_FOOT },
      { text: `sheet ${page} of ${count}`, width: 'auto', alignment: 'right', style: IN_FOOT },
    ],
  }
}

function cell(name: string, lines: readonly string[], colSpan = 1): Cell {
  return { colSpan, stack: [label(name), ...lines.filter((line) => line !== '').map((text): Piece => ({ text }))] }
}

function numberCell(name: string, text: string, colSpan = 1): Cell {
  return { colSpan, stack: [label(name), { text, fontSize: 11, bold: true }] }
}

function titleCell({ title, subtitle }: TitleBlockFields, colSpan: number): Cell {
  return { colSpan, stack: [label('Title'), { text: title, fontSize: 16, bold: true, outline: true, outlineExpanded: true }, { text: subtitle }] }
}
