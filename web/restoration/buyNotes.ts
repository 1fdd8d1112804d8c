/** How the columns of the parts to buy come about: one note each, as the inputs stand in the row. */
export const QUANTITY_NOTE = 'Quantity: for each part named, its single-use fasteners, of those that break the share noted, rounded up, and what is bought new or for a repair; equal ones together (common practice, no source)'
export const PRICE_NOTE = 'Price of a line: quantity × price of one as noted (common practice, no source)'
