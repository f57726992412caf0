/** All that a page does by itself: it tells the values of what is pointed at, and copies the scenario. */

export const SCRIPT = `
const tip = document.getElementById('tip');
const show = (event) => {
  const at = event.target.closest ? event.target.closest('[data-tip]') : null;
  tip.hidden = at === null;
  if (at === null) return;
  tip.textContent = at.getAttribute('data-tip');
  const room = document.documentElement.clientWidth - tip.offsetWidth - 8;
  tip.style.left = Math.max(8, Math.min(room, event.clientX + 14)) + 'px';
  const below = event.clientY + 18;
  tip.style.top = (below + tip.offsetHeight > innerHeight ? event.clientY - tip.offsetHeight - 12 : below) + 'px';
};
addEventListener('pointermove', show);
addEventListener('pointerdown', show);
addEventListener('scroll', () => { tip.hidden = true; }, { passive: true });
const button = document.getElementById('copy');
const text = document.getElementById('scenario');
button.hidden = false;
button.addEventListener('click', async () => {
  getSelection().selectAllChildren(text);
  try {
    await navigator.clipboard.writeText(text.textContent);
    button.textContent = 'Copied';
  } catch {
    button.textContent = 'Selected: copy it now';
  }
});
`;
