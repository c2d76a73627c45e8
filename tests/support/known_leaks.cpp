// What the leak checker is not to report: fontconfig keeps what it read of the installed fonts until the end, where the
// checker does not find it any more. Does nothing in builds without the checker.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig"; }
