// Sets the chosen light before the page is painted; without a choice the system decides.
try {
	const theme = localStorage.getItem('lazaret-theme');
	if (theme) document.documentElement.dataset.theme = theme;
} catch {
	// storage is forbidden: the system decides
}
