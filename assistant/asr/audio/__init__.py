"""Audio itself: devices, WAV files, levels, pauses and noise. No words, no engine, no model of
ours. A new device implements `audio_devices`. All else takes 16 kHz mono 16-bit samples, so keep to
that; a threshold here moves every engine, so measure again.
"""
