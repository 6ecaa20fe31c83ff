// The word comes behind the # of the address, where no server sees it, and is put into its field.
const word = decodeURIComponent(location.hash.slice(1));
if (word) {
  document.getElementById("word").value = word;
  history.replaceState(null, "", location.pathname);
}
