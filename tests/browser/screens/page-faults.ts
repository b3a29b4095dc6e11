/** What is off the screen, cut, or too small to hit; and how large the headline came out. */
export function faultsInPage(): { readonly faults: readonly string[]; readonly headline: number } {
  const faults: string[] = []
  const isRun = document.querySelector('.run') !== null
  if (document.documentElement.scrollWidth > innerWidth) faults.push('the page scrolls sideways')
  for (const element of document.querySelectorAll<HTMLElement>('#page *')) {
    const name = `${element.tagName.toLowerCase()}.${element.className} "${(element.textContent ?? '').slice(0, 30)}"`
    if (element.closest('svg, .notes, .across')) continue
    const { left, right, bottom, height, width } = element.getBoundingClientRect()
    if (width === 0) continue
    if (left < -1 || right > innerWidth + 1) faults.push(`${name} is off the side`)
    const mayScroll = element.closest('.panel-body, .corrections, .number-limits') !== null
    if (isRun && bottom > innerHeight + 1 && !mayScroll) faults.push(`${name} is below the screen`)
    const cuts = getComputedStyle(element).overflowY !== 'visible' && element.scrollHeight > element.clientHeight + 1
    // What comes next, and what was done last, may end in dots: the call itself says it in full.
    if (
      cuts &&
      !element.matches('.run, .stave-track, .stave-next, .undo-what, .panel-body, .corrections, .number-limits') &&
      // What is written scrolls, its line numbers with it, and the list of its steps.
      !element.matches('textarea, .draft-text-field pre, .draft-steps > ol')
    )
      faults.push(`${name} is cut`)
    if (element.matches('.press.work, .press.main') && height < 104) faults.push(`${name} is ${height} px high`)
  }
  const headline = document.querySelector('.headline')
  return { faults, headline: headline ? parseFloat(getComputedStyle(headline).fontSize) : 0 }
}
