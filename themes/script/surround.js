// The surround in which colors are judged: chosen by the person, kept for the
// next page. What must stand before the page is drawn is settled here, in its
// head.
{
  const html = document.documentElement;
  const kept = twodip.store.get('surround', 'dark');
  html.dataset.surround = kept === 'grey' ? 'grey' : 'dark';
  // A page that was asked for something keeps the place of the answer.
  if (/^#(?!at=).*=/.test(location.hash)) html.classList.add('asked');
  twodip.ready.push(() => {
    const buttons = document.querySelectorAll('[data-surround-to]');
    const show = () => buttons.forEach(b => b.setAttribute('aria-pressed', String(b.dataset.surroundTo === html.dataset.surround)));
    buttons.forEach(b => b.addEventListener('click', () => {
      html.dataset.surround = b.dataset.surroundTo;
      twodip.store.set('surround', b.dataset.surroundTo);
      show();
    }));
    show();
  });
}
