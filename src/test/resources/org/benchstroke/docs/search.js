// All words must be there, as beginnings of words; a word of the title counts more. Nothing leaves this computer.
'use strict';
(function () {
  const asked = new URLSearchParams(location.search).get('q') || '';
  const words = asked.toLowerCase().split(/[^\p{L}\p{N}_]+/u).filter(w => w);
  document.getElementById('q').value = asked;
  const count = document.getElementById('count');
  if (words.length === 0) {
    count.textContent = 'Type what you look for, and press Enter.';
    return;
  }
  const patterns = words.map(w => new RegExp('(?<![\\p{L}\\p{N}])' + w, 'giu'));
  const found = [];
  for (const page of PAGES) {
    let points = 0;
    const all = patterns.every(pattern => {
      const inTitle = (page.title.match(pattern) || []).length;
      const inText = (page.text.match(pattern) || []).length;
      points += 20 * inTitle + Math.min(inText, 10);
      return inText > 0 || inTitle > 0;
    });
    if (all) {
      found.push({ page, points });
    }
  }
  found.sort((a, b) => b.points - a.points || a.page.title.localeCompare(b.page.title));
  count.textContent = found.length + (found.length === 1 ? ' page' : ' pages') + ' for “' + asked + '”';
  for (const { page } of found) {
    const link = document.createElement('a');
    link.href = page.page;
    link.textContent = page.title;
    const at = Math.max(0, page.text.search(patterns[0]));
    const piece = document.createElement('p');
    piece.textContent = '… ' + page.text.slice(Math.max(0, at - 80), at + 160).trim() + ' …';
    const item = document.createElement('li');
    item.append(link, piece);
    document.getElementById('found').append(item);
  }
})();
