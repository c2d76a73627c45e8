#pragma once
// Being asked to stop, by an interrupt from the terminal or by a signal to terminate.

namespace pullproof::cli {

/// From here on the first such signal is noted instead of ending the program; a second one ends it. Reads that wait
/// are woken.
void stop_when_asked();
bool stop_wanted();
/// The exit status for having been stopped: 128 and the number of the signal, as shells have it.
int stopped_status();

}  // namespace pullproof::cli
