/** Stands on every quote and change order, on paper and on the page. */
export const LAW_OF_PAPERS = 'What is taxed how, what kind of consent is needed and what must be offered is for local law to say. This paper gives no advice on it.'
