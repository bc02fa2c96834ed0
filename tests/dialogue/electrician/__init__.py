"""A scripted electrician: holds a box in mind, talks it through, checks what is read back."""
